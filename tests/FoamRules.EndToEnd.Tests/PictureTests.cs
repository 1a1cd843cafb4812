using System.Xml.Linq;
using FoamRules.Exchange.Calculating;
using FoamRules.Testing;

namespace FoamRules.EndToEnd.Tests;

/// <summary>The pictures of a report and of a calculation, in this process and from a server.</summary>
public sealed class PictureTests(RunningServer server) : IClassFixture<RunningServer>
{
    private static readonly string[] OfTheExample =
    [
        "cold-store-dock-dock-air.svg", "cold-store-dock-office-air.svg", "cold-store-dock-office-wall-heat.svg", "cold-store-dock-posts-column.svg", "cold-store-dock-posts-test-shots.svg",
    ];

    [Fact]
    public async Task A_check_draws_what_the_plan_lets_it_draw_the_same_here_and_on_a_server()
    {
        using var files = new TemporaryFolder();
        var (here, there) = (Path.Combine(files.Path, "here"), Path.Combine(files.Path, "there"));
        var plan = Repository.PathOf("shared", "plans", "cold-store-dock.yaml");
        Assert.Equal(0, (await Programs.FoamRules("check", plan, "--pictures", here)).Code);
        Assert.Equal(0, (await Programs.FoamRules("check", plan, "--pictures", there, "--server", server.Address)).Code);

        Assert.Equal(OfTheExample, NamesIn(here));
        Assert.Equal(OfTheExample, NamesIn(there));
        Assert.All(OfTheExample, name => Assert.Equal(File.ReadAllText(Path.Combine(here, name)), File.ReadAllText(Path.Combine(there, name))));
        var heat = File.ReadAllText(Path.Combine(here, "cold-store-dock-office-wall-heat.svg"));
        Assert.Contains("pass 2", heat, StringComparison.Ordinal);
        Assert.Contains("No computed heat clears a thickness or a wait.", Description(heat), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_known_is_not_drawn()
    {
        using var files = new TemporaryFolder();
        var folder = Path.Combine(files.Path, "pictures");
        _ = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock-quote.yaml"), "--pictures", folder);
        // On day one the sizes are known, and neither passes nor levels nor test shots.
        Assert.DoesNotContain(NamesIn(folder), name => name!.Contains("heat", StringComparison.Ordinal) || name.Contains("air", StringComparison.Ordinal) || name.Contains("test-shots", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Pictures_that_share_a_page_share_no_names()
    {
        using var files = new TemporaryFolder();
        _ = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock.yaml"), "--pictures", files.Path);
        var ids = Directory.GetFiles(files.Path, "*.svg").SelectMany(file => XElement.Load(file).Descendants().Select(element => (string?)element.Attribute("id"))).OfType<string>().ToList();
        Assert.NotEmpty(ids);
        Assert.Equal(ids.Count, ids.Distinct().Count());
    }

    [Theory]
    [InlineData("pass-heat")]
    [InlineData("purge")]
    [InlineData("test-shots")]
    public async Task A_calculation_is_drawn_where_a_file_is_named(string name)
    {
        using var files = new TemporaryFolder();
        var file = Path.Combine(files.Path, "picture.svg");
        var ran = await Programs.FoamRules("calc", name, "--input", CalculationExamples.FileOf(name), "--picture", file);
        Assert.True(ran.Code == 0, ran.Errors);
        Assert.NotEmpty(Description(File.ReadAllText(file)));
        Assert.DoesNotContain("<svg", ran.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_calculation_without_a_picture_says_which_have_one()
    {
        var ran = await Programs.FoamRules("calc", "day", "--input", CalculationExamples.FileOf("day"), "--picture", "picture.svg");
        Assert.Equal(2, ran.Code);
        Assert.All(Calculators.All.Where(calculator => calculator.Draws), calculator => Assert.Contains(calculator.Name, ran.Errors, StringComparison.Ordinal));
    }

    private static List<string?> NamesIn(string folder) => [.. Directory.GetFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal)];

    private static string Description(string svg) => XElement.Parse(svg).Descendants().Single(element => element.Name.LocalName == "desc").Value;
}
