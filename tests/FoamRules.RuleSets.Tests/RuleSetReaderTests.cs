using FoamRules.Model;
using FoamRules.Testing;
using UnitsNet;

namespace FoamRules.RuleSets.Tests;

/// <summary>Rule sets are read at start; what is wrong is named with file, line and column, all at once.</summary>
public sealed class RuleSetReaderTests : IDisposable
{
    private const string Head = "title: Test\nversion: 1.0.0\nlevel: general-practice\n";
    private const string Source = "sources:\n  book: { cite: A book, status: read }\n";
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_rule_sets_that_ship_can_be_read()
    {
        var library = Repository.LoadRules();
        Assert.Contains(RuleLibrary.GeneralPractice, library.RuleSets.Keys);
        Assert.Contains("us-federal", library.RuleSets.Keys);
    }

    [Fact]
    public void A_limit_keeps_the_number_and_the_unit_of_its_source()
    {
        var limit = Read(Requirement("limits: { board: { at-least: { inches: 0.375 }, or: { millimeters: 9.5 }, source: book } }")).Limits["board"];
        Assert.Equal(Length.FromInches(0.375), limit.As<Length>());
        Assert.Equal(UnitsNet.Units.LengthUnit.Inch, limit.As<Length>().Unit);
        Assert.Equal(Length.FromMillimeters(9.5), limit.Or!.Quantity);
        Assert.Equal((Tighter.Higher, "A book", SourceStatus.Read), (limit.Tighter, limit.Source.Citation, limit.Source.Status));
    }

    [Fact]
    public void A_difference_of_temperatures_is_no_temperature()
    {
        var entry = Read(Requirement("limits: { margin: { at-least: { fahrenheit_degrees: 5 }, source: book }, service: { at-most: { degrees_fahrenheit: 176 }, source: book } }"));
        Assert.Equal(5 / 1.8, entry.Limits["margin"].As<TemperatureDelta>().Kelvins, 9);
        Assert.Equal(80, entry.Limits["service"].As<Temperature>().DegreesCelsius, 9);
    }

    [Fact]
    public void A_group_names_its_limits_and_may_give_their_source()
    {
        var entry = Read(Requirement("limits: { ibc: { source: book, gypsum: { at-least: { inches: 0.5 } }, steel: { at-least: { inches: 0.016 } } } }"));
        Assert.Equal(["ibc.gypsum", "ibc.steel"], entry.Limits.Keys);
        Assert.All(entry.Limits.Values, limit => Assert.Equal("A book", limit.Source.Citation));
    }

    [Theory]
    [InlineData("limits: { a: { at-least: { inches: 1 } } }", "no source", 10)]
    [InlineData("limits: { a: { at-least: { inches: 1 }, source: bok } }", "the unknown source `bok`", 10)]
    [InlineData("limits: { a: { at-least: { inch: 1 }, source: book } }", "the unknown unit `inch`", 10)]
    [InlineData("limits: { a: { at-least: { inches: one }, source: book } }", "`one`", 10)]
    [InlineData("limits: { a: { at-least: 3, source: book } }", "no value under a unit", 10)]
    [InlineData("limits: { a: { at-least: { inches: 1 }, at-most: { inches: 2 }, source: book } }", "at-most and at-least", 10)]
    [InlineData("limits: { a: { at-least: { inches: 1 }, or: { seconds: 2 }, source: book } }", "another kind of value", 10)]
    [InlineData("limits: { a: { at-least: { inches: 1 }, source: book, relaxes: true } }", "a relaxation without an authority", 10)]
    [InlineData("limts: { }", "an unknown name", 10)]
    [InlineData("sources: [bok]", "the unknown source `bok`", 10)]
    [InlineData("tiers: { bad: { sources: [book] } }", "no severities", 10)]
    public void What_is_wrong_is_named_with_its_line(string line, string found, int at)
    {
        var violation = Assert.Single(Violations(Requirement(line)));
        Assert.Equal(found, violation.Found);
        Assert.Equal(("base/topic.yaml", at), (violation.File, violation.Line));
        Assert.True(violation.Column > 0 && violation.Allowed.Length > 0 && violation.Remedy.Length > 0);
    }

    [Theory]
    [InlineData("not-met: { plan: halt }", "`halt`")]
    [InlineData("not-met: { planning: stop }", "an unknown name")]
    public void A_severity_is_one_of_four(string line, string found) =>
        Assert.Contains(Violations(Source + $"topic.a-rule:\n  must: It must.\n  {line}\n  missing: {{}}\n  release: [owner]\n  sources: [book]\n"), violation => violation.Found == found);

    [Fact]
    public void A_requirement_needs_what_must_hold_its_severities_its_source_and_who_releases_it()
    {
        var found = Violations(Source + "topic.a-rule:\n  caution: Mind.\n").Select(violation => violation.Found);
        Assert.Equal(["a requirement without must, not-met or missing", "a requirement without a source", "a requirement without release"], found);
    }

    [Fact]
    public void A_requirement_stands_in_the_file_of_its_topic() =>
        Assert.Contains(Violations(Source + "other.a-rule:\n  must: It must.\n  not-met: { plan: hold }\n  missing: { plan: hold }\n  release: [owner]\n  sources: [book]\n"), violation => violation.Found == "a requirement of another topic");

    [Fact]
    public void A_broken_file_is_named_with_line_and_column()
    {
        var violation = Assert.Single(Violations("topic.a-rule: [unclosed\n"));
        Assert.Equal("base/topic.yaml", violation.File);
        Assert.True(violation.Line > 0);
    }

    private static string Requirement(string line) =>
        Source + $"topic.a-rule:\n  must: It must.\n  not-met: {{ plan: hold }}\n  missing: {{ plan: hold }}\n  release: [owner]\n{(line.StartsWith("sources", StringComparison.Ordinal) ? "" : "  sources: [book]\n")}{(line.StartsWith("sources", StringComparison.Ordinal) ? "\n" : "")}\n  {line}\n";

    private RequirementEntry Read(string topic)
    {
        WriteBase(topic);
        var library = RuleLibrary.Load(_folder.Path, out var violations);
        Assert.True(library is not null, string.Join("\n", violations));
        return library.RuleSets["base"].Requirements["topic.a-rule"];
    }

    private IReadOnlyList<Violation> Violations(string topic)
    {
        WriteBase(topic);
        Assert.Null(RuleLibrary.Load(_folder.Path, out var violations));
        return violations;
    }

    private void WriteBase(string topic)
    {
        _folder.Write("base/rule-set.yaml", Head);
        _folder.Write("base/topic.yaml", topic);
    }
}
