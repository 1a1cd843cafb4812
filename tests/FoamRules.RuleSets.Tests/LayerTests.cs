using FoamRules.Model;
using FoamRules.Testing;
using UnitsNet;

namespace FoamRules.RuleSets.Tests;

/// <summary>A layer may only tighten the layers below, unless it says by what authority it relaxes them.</summary>
public sealed class LayerTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public LayerTests()
    {
        _folder.Write("general-practice/rule-set.yaml", "title: Base\nversion: 1.0.0\nlevel: general-practice\n");
        _folder.Write("general-practice/topic.yaml", """
            sources:
              habit: { cite: Practice, status: common-practice }
            topic.a-rule:
              must: It must.
              not-met: { plan: hold, close-out: hold }
              missing: { plan: caution }
              release: [owner]
              limits:
                thickness: { at-most: { inches: 2 }, source: habit }
                distance: { at-least: { feet: 25 }, source: habit }
                gloves: { any-of: [nitrile, butyl], source: habit }
            """);
    }

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("thickness: { at-most: { millimeters: 50 }, source: law }")]
    [InlineData("thickness: { at-most: { millimeters: 50.8 }, source: law }")]
    [InlineData("distance: { at-least: { meters: 8 }, source: law }")]
    [InlineData("gloves: { any-of: [nitrile], source: law }")]
    public void A_tighter_or_equal_limit_stands_and_brings_its_source(string limit)
    {
        var name = limit.Split(':')[0];
        var stands = Book(limit)!.Requirements["topic.a-rule"].Limits[name];
        Assert.Equal(("country", "A law"), (stands.Layer, stands.Source.Citation));
        Assert.Equal("general-practice", Assert.Single(stands.Below).Layer);
    }

    [Theory]
    [InlineData("thickness: { at-most: { inches: 3 }, source: law }", "a looser limit than general-practice sets")]
    [InlineData("distance: { at-least: { feet: 20 }, source: law }", "a looser limit than general-practice sets")]
    [InlineData("gloves: { any-of: [nitrile, leather], source: law }", "a looser limit than general-practice sets")]
    [InlineData("thickness: { at-least: { inches: 1 }, source: law }", "another kind of value than the layer below gives")]
    [InlineData("thickness: { at-most: { seconds: 1 }, source: law }", "another kind of value than the layer below gives")]
    public void A_looser_limit_is_refused_at_load(string limit, string found)
    {
        Assert.Null(Book(limit));
        var violation = Assert.Single(_violations);
        Assert.Equal((found, "country/topic.yaml"), (violation.Found, violation.File));
        Assert.True(violation.Line > 0);
    }

    [Fact]
    public void A_relaxation_needs_an_authority_and_is_told_in_the_report()
    {
        var book = Book("thickness: { at-most: { inches: 3 }, source: law, relaxes: true, authority: the building department }")!;
        Assert.Equal(Length.FromInches(3), book.Requirements["topic.a-rule"].Limits["thickness"].As<Length>());
        Assert.Contains("the building department", Assert.Single(book.Relaxations), StringComparison.Ordinal);
    }

    [Fact]
    public void Severities_may_rise_and_not_fall()
    {
        _folder.Write("country/rule-set.yaml", Country);
        _folder.Write("country/topic.yaml", "topic.a-rule:\n  not-met: { plan: stop }\n");
        var spec = RuleLibrary.Load(_folder.Path, out _)!.Everything().Requirements["topic.a-rule"];
        Assert.Equal(new Severities(null, Severity.StopWork, null, Severity.HoldPoint), spec.NotMet);

        _folder.Write("country/topic.yaml", "topic.a-rule:\n  not-met: { plan: caution }\n");
        Assert.Null(RuleLibrary.Load(_folder.Path, out var violations));
        Assert.Equal("a lower severity than the layers below set", Assert.Single(violations).Found);
    }

    [Fact]
    public void Of_two_layers_of_one_level_the_tighter_limit_stands()
    {
        Layer("country", "thickness: { at-most: { inches: 1.5 }, source: law }");
        Layer("other", "thickness: { at-most: { inches: 1 }, source: law }");
        foreach (var names in new[] { new[] { "country", "other" }, ["other", "country"] })
        {
            var limit = RuleBook.Build(names.Select(name => RuleLibrary.Load(_folder.Path, out _)!.RuleSets[name]).Prepend(RuleLibrary.Load(_folder.Path, out _)!.RuleSets["general-practice"])).Requirements["topic.a-rule"].Limits["thickness"];
            Assert.Equal(("other", Length.FromInches(1)), (limit.Layer, limit.As<Length>()));
        }
    }

    [Fact]
    public void A_requirement_is_judged_by_limits_of_another_as_the_layers_tighten_them()
    {
        _folder.Write("general-practice/second.yaml", Second("topic.a-rule"));
        var limits = Book("thickness: { at-most: { inches: 1 }, source: law }")!.Requirements["second.b-rule"].Limits;
        Assert.Equal(["topic.a-rule.distance", "topic.a-rule.gloves", "topic.a-rule.thickness"], limits.Keys);
        Assert.Equal(("topic.a-rule.thickness", "country", Length.FromInches(1)),
            (limits["topic.a-rule.thickness"].Name, limits["topic.a-rule.thickness"].Layer, limits["topic.a-rule.thickness"].As<Length>()));
    }

    [Fact]
    public void Limits_of_a_requirement_that_is_not_there_are_refused_at_load()
    {
        _folder.Write("general-practice/second.yaml", Second("topic.no-rule.thickness"));
        Assert.Null(RuleLibrary.Load(_folder.Path, out var violations));
        Assert.Equal("limits-of topic.no-rule.thickness, which is no requirement", Assert.Single(violations).Found);
    }

    private static string Second(string others) =>
        $"second.b-rule:\n  must: It must.\n  not-met: {{ plan: hold }}\n  missing: {{ plan: hold }}\n  release: [owner]\n  sources: [habit]\n  limits-of: [{others}]\n";

    private const string Country = "title: Country\nversion: 2.0.0\nlevel: country\nabove: general-practice\njurisdiction: { country: US }\n";
    private IReadOnlyList<Violation> _violations = [];

    private RuleBook? Book(string limit)
    {
        Layer("country", limit);
        return RuleLibrary.Load(_folder.Path, out _violations)?.Everything();
    }

    private void Layer(string id, string limit)
    {
        _folder.Write($"{id}/rule-set.yaml", Country);
        _folder.Write($"{id}/topic.yaml", $"sources:\n  law: {{ cite: A law, status: read }}\ntopic.a-rule:\n  limits:\n    {limit}\n");
    }
}
