using FoamRules.RuleSets;
using FoamRules.Testing;
using UnitsNet;

namespace FoamRules.Rules.Tests;

/// <summary>The limits that ship against the published table of ignition barriers, row by row and both ways round.</summary>
public sealed class IgnitionBarrierTableTests
{
    private const string Group = "ignition-barrier";

    [Theory]
    [InlineData("ibc_in", "ibc", "attic")]
    [InlineData("irc_attic_in", "irc", "attic")]
    [InlineData("irc_crawl_in", "irc", "crawl-space")]
    public void The_rule_sets_list_what_the_table_lists(string column, string code, string space)
    {
        var expected = Table().Where(row => row[column].Length > 0)
            .Select(row => (row["material"].Replace('_', '-'), double.Parse(row[column], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.Equal(expected.Order(), Limits(code, space).Order());
    }

    [Fact]
    public void Crawl_spaces_under_the_building_code_have_the_same_list_without_what_is_for_attics_only()
    {
        var expected = Table().Where(row => row["ibc_in"].Length > 0 && !row["note"].Contains("attic only", StringComparison.Ordinal))
            .Select(row => (row["material"].Replace('_', '-'), double.Parse(row["ibc_in"], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.Equal(expected.Order(), Limits("ibc", "crawl-space").Order());
    }

    [Fact]
    public void Millimetres_that_the_codes_print_as_alternatives_differ_only_by_rounding()
    {
        var limits = Spec().Limits.Values.Where(limit => limit.Name.Contains(Group, StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(limits);
        Assert.All(limits, limit =>
        {
            Assert.Equal(Tighter.Higher, limit.Tighter);
            var printed = Assert.IsType<Length>(limit.Or?.Quantity).Millimeters;
            Assert.InRange(printed / limit.As<Length>().Millimeters, 0.98, 1.02);
        });
    }

    private static IEnumerable<(string Material, double Inches)> Limits(string code, string space) =>
        from limit in Spec().Limits.Values
        from start in new[] { $"{code}.{Group}.", $"{code}.{Group}-{space}." }
        where limit.Name.StartsWith(start, StringComparison.Ordinal)
        select (limit.Name[start.Length..], Math.Round(limit.As<Length>().Inches, 6));

    private static RequirementSpec Spec() => Repository.Book("US").Requirements["fire.separated-from-interior"];

    // The heading line names the columns; a line with # before it names the source.
    private static List<Dictionary<string, string>> Table()
    {
        var lines = File.ReadAllLines(Repository.PathOf("shared", "check-values", "ignition-barriers.csv")).Where(line => line.Length > 0 && line[0] != '#').ToList();
        var heading = lines[0].Split(',');
        return [.. lines.Skip(1).Select(line => heading.Zip(line.Split(',')).ToDictionary(pair => pair.First, pair => pair.Second))];
    }
}
