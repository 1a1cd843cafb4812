using System.Text.RegularExpressions;
using System.Xml.Linq;
using FoamRules.Testing;

namespace FoamRules.Architecture.Tests;

/// <summary>Arrows between projects point one way, and each library is known by the one project that needs it.</summary>
public sealed class ArrowTests
{
    // A project, and the projects of ours that it may name.
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Model"] = [],
        ["Contracts"] = [],
        ["Text"] = ["Model"],
        ["Calculations"] = ["Model"],
        ["Pictures"] = ["Calculations", "Model"],
        ["RuleSets"] = ["Model", "Text"],
        ["Exchange"] = ["Calculations", "Contracts", "Model", "Pictures", "Text"],
        ["Rules"] = ["Calculations", "Model", "Pictures", "RuleSets"],
        ["Records"] = ["Contracts", "Exchange", "Rules"],
        ["Remedies"] = ["Contracts", "Exchange", "Model", "RuleSets", "Rules"],
        ["Access"] = ["Contracts", "Records"],
        ["Pages"] = ["Access", "Contracts", "Exchange", "Model", "Readings", "Records", "Remedies", "Rules", "RuleSets", "Text"],
        ["Service"] = ["Access", "Contracts", "Exchange", "Pages", "Records", "Remedies", "Rules"],
        ["Readings"] = ["Model"],
        ["Cli"] = ["Access", "Exchange", "Pages", "Readings", "Records", "Remedies", "Rules", "Service"],
    };

    // A package, and the projects that may name it.
    private static readonly Dictionary<string, string[]> Packages = new()
    {
        ["NRules"] = ["Rules"],
        ["UnitsNet"] = ["Model"],
        ["YamlDotNet"] = ["Text"],
        ["Grpc.Tools"] = ["Contracts"],
        ["MathNet.Numerics"] = ["Calculations"],
        ["OxyPlot.Core"] = ["Pictures"],
        ["Cel"] = ["RuleSets"],
        ["Microsoft.IdentityModel.Protocols.OpenIdConnect"] = ["Access"],
        ["Spectre.Console"] = ["Cli"],
        ["Microsoft.EntityFrameworkCore.Design"] = ["Records"],
        ["Microsoft.EntityFrameworkCore.Sqlite"] = ["Records"],
        ["Npgsql.EntityFrameworkCore.PostgreSQL"] = ["Records"],
    };

    [Fact]
    public void Every_project_names_only_projects_below_it()
    {
        var projects = Directory.GetFiles(Repository.PathOf("src"), "*.csproj", SearchOption.AllDirectories);
        Assert.Equal(Allowed.Keys.Order(), projects.Select(Name).Order());
        foreach (var file in projects)
        {
            var named = Items(file, "ProjectReference").Select(Name);
            Assert.All(named, other => Assert.Contains(other, Allowed[Name(file)]));
            Assert.All(Items(file, "PackageReference"), package => Assert.True(!Packages.TryGetValue(package, out var may) || may.Contains(Name(file)), $"{Name(file)} names {package}"));
        }
    }

    [Fact]
    public void The_order_of_the_projects_has_no_circle()
    {
        var placed = new HashSet<string>();
        while (Allowed.FirstOrDefault(project => !placed.Contains(project.Key) && project.Value.All(placed.Contains)).Key is { } next)
        {
            placed.Add(next);
        }

        Assert.Equal(Allowed.Count, placed.Count);
    }

    [Fact]
    public void The_grammar_of_expressions_is_named_in_one_file_only()
    {
        var names = new Regex(@"\b(using (static )?|global::)(Cel|Antlr4)\b");
        var files = Sources("Model", "Text", "Calculations", "RuleSets", "Exchange", "Rules", "Records", "Remedies", "Service", "Cli").Where(file => names.IsMatch(File.ReadAllText(file)));
        Assert.Equal(["SyntaxReader.cs"], files.Select(Path.GetFileName));
    }

    [Fact]
    public void No_source_looks_at_a_clock_but_the_outermost()
    {
        var clock = new Regex(@"DateTime(Offset)?\.(Now|UtcNow|Today)");
        var offenders = Sources("Model", "Text", "Calculations", "RuleSets", "Exchange", "Rules", "Records", "Remedies").Where(file => clock.IsMatch(File.ReadAllText(file)));
        Assert.Empty(offenders);
    }

    [Fact]
    public void A_project_writes_its_log_in_one_file()
    {
        // Of two, the compiler writes first now the one, now the other: no build comes out like the last.
        var written = Allowed.Keys.Select(project => Sources(project).Where(file => File.ReadAllText(file).Contains("[LoggerMessage(", StringComparison.Ordinal)).Select(Path.GetFileName).ToList());
        Assert.All(written, files => Assert.True(files.Count <= 1, string.Join(", ", files)));
        Assert.Contains(["ServiceLog.cs"], written);
    }

    private static IEnumerable<string> Sources(params string[] projects) =>
        projects.SelectMany(project => Directory.GetFiles(Repository.PathOf("src", $"FoamRules.{project}"), "*.cs", SearchOption.AllDirectories))
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal));

    private static string Name(string file) => Path.GetFileNameWithoutExtension(file.Replace('\\', '/')).Replace("FoamRules.", "", StringComparison.Ordinal);

    private static IEnumerable<string> Items(string file, string kind) => XDocument.Load(file).Descendants(kind).Select(item => item.Attribute("Include")!.Value);
}
