using FoamRules.Model;
using FoamRules.Testing;
using UnitsNet;

namespace FoamRules.RuleSets.Tests;

/// <summary>What several layers say of one limit or one severity becomes one: never looser than any that stands, and never a crash.</summary>
public sealed class LayerMergeTests : IDisposable
{
    private const string Sources = "sources:\n  law: { cite: A law, status: read }\n  recalled: { cite: Recalled, status: from-memory }\n";
    private readonly TemporaryFolder _folder = new();
    private IReadOnlyList<Violation> _violations = [];

    public LayerMergeTests()
    {
        Head("general-practice", "level: general-practice");
        Topic("general-practice", """
              must: It must.
              not-met: { plan: hold, close-out: hold }
              missing: { plan: caution }
              release: [owner]
              tiers:
                worse: { not-met: { plan: hold }, sources: [law] }
              limits:
                thickness: { at-most: { inches: 2 }, source: law }
                gloves: { any-of: [nitrile, butyl, leather], source: recalled }
            """);
        Head("us", "level: country\nabove: general-practice\njurisdiction: { country: US }");
        Head("ca", "level: country\nabove: general-practice\njurisdiction: { country: CA }");
        Head("code-a", "level: region\nabove: us\nedition-of: code");
        Head("code-b", "level: region\nabove: us\nedition-of: code");
        Head("company", "level: company\nabove: us\nadopts: [code-a]");
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Of_lists_of_which_none_lies_inside_the_other_the_common_words_are_allowed()
    {
        Limits("us", "gloves: { any-of: [nitrile, butyl], source: law }");
        Limits("ca", "gloves: { any-of: [butyl, leather], source: law }");
        var limit = Limit("gloves", "us", "ca");
        Assert.Equal(["butyl"], limit.Words);
        Assert.Equal("butyl", limit.Value.Text);
        Assert.Equal(["ca", "general-practice", "us"], limit.Below.Select(other => other.Layer).Append(limit.Layer).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Of_lists_with_nothing_in_common_nothing_is_allowed()
    {
        Limits("us", "gloves: { any-of: [nitrile], source: law }");
        Limits("ca", "gloves: { any-of: [leather], source: law }");
        Assert.Empty(Limit("gloves", "us", "ca").Words);
    }

    [Fact]
    public void An_alternative_that_one_edition_does_not_list_is_not_allowed_under_both()
    {
        Limits("code-a", "code: { barrier: { source: law, allows: each, board: { at-least: { inches: 0.5 } }, cellulose: { at-least: { inches: 1.5 } } } }");
        Limits("code-b", "code: { barrier: { source: law, allows: each, board: { at-least: { inches: 0.625 } } } }");
        Assert.Equal(["code.barrier.board", "code.barrier.cellulose", "gloves", "thickness"], Book("code-a").Requirements["topic.a-rule"].Limits.Keys);
        var both = Book("code-a", "code-b").Requirements["topic.a-rule"].Limits;
        Assert.Equal(["code.barrier.board", "gloves", "thickness"], both.Keys);
        Assert.Equal(Length.FromInches(0.625), both["code.barrier.board"].As<Length>());
    }

    [Fact]
    public void An_exception_that_both_editions_have_keeps_the_conditions_of_both()
    {
        Limits("code-a", "code: { exception: { source: law, allows: together, thickness: { at-most: { inches: 4 } } } }");
        Limits("code-b", "code: { exception: { source: law, allows: together, thickness: { at-most: { inches: 3 } }, storeys: { at-most: { count: 1 } } } }");
        var both = Book("code-a", "code-b").Requirements["topic.a-rule"].Limits;
        Assert.Equal((Length.FromInches(3), 1L), (both["code.exception.thickness"].As<Length>(), both["code.exception.storeys"].Count));
    }

    [Fact]
    public void An_exception_that_one_edition_has_not_is_none_under_both_even_where_a_company_restates_it()
    {
        Limits("code-a", "code: { exception: { source: law, allows: together, thickness: { at-most: { inches: 4 } } } }");
        Limits("code-b", "code: { other: { at-most: { count: 1 }, source: law } }");
        Limits("company", "code: { exception: { thickness: { at-most: { inches: 3 }, source: law } } }");
        Assert.Contains("code.exception.thickness", Book("code-a", "company").Requirements["topic.a-rule"].Limits.Keys);
        Assert.DoesNotContain("code.exception.thickness", Book("code-a", "code-b", "company").Requirements["topic.a-rule"].Limits.Keys);
    }

    [Fact]
    public void Of_equal_limits_the_one_stands_whose_source_was_read()
    {
        Limits("code-a", "new: { at-most: { inches: 1 }, source: law }");
        Limits("code-b", "new: { at-most: { millimeters: 25.4 }, source: recalled }");
        Assert.Equal("code-a", Limit("new", "code-a", "code-b").Layer);
        Limits("code-a", "new: { at-most: { inches: 1 }, source: recalled }");
        Limits("code-b", "new: { at-most: { millimeters: 25.4 }, source: law }");
        Assert.Equal("code-b", Limit("new", "code-a", "code-b").Layer);
    }

    [Fact]
    public void A_relaxation_overrules_what_its_layer_stands_on_and_nothing_else()
    {
        Limits("company", "thickness: { at-most: { inches: 3 }, source: law, relaxes: true, authority: the owner }");
        Assert.Equal(("company", Length.FromInches(3)), (Limit("thickness", "company").Layer, Limit("thickness", "company").As<Length>()));
        Assert.True(Assert.Single(Limit("thickness", "company").Below, other => other.Layer == "general-practice").IsOverruled);

        Limits("ca", "thickness: { at-most: { inches: 1 }, source: law }");
        Assert.Equal("ca", Limit("thickness", "company", "ca").Layer);
        Assert.Empty(Book("company", "ca").Relaxations);
    }

    [Fact]
    public void A_relaxation_that_a_layer_above_tightens_a_little_is_still_told()
    {
        Head("project", "level: project\nabove: company");
        Limits("company", "thickness: { at-most: { inches: 4 }, source: law, relaxes: true, authority: the owner }");
        Limits("project", "thickness: { at-most: { inches: 3 }, source: law }");
        Assert.Equal("topic.a-rule: thickness relaxed by company, by authority of the owner (A law)", Assert.Single(Book("project").Relaxations));
        Limits("project", "thickness: { at-most: { inches: 2 }, source: law }");
        Assert.Empty(Book("project").Relaxations);
    }

    [Fact]
    public void Severities_are_relaxed_by_authority_and_source_at_the_stages_named_and_told()
    {
        Topic("company", "  relaxed-by: the owner\n  sources: [law]\n  not-met: { plan: caution }");
        var book = Book("company");
        Assert.Equal(new Severities(null, Severity.Caution, null, Severity.HoldPoint), book.Requirements["topic.a-rule"].NotMet);
        Assert.Equal("topic.a-rule: severities relaxed by company, by authority of the owner (A law)", Assert.Single(book.Relaxations));
        Assert.Equal(("company", "general-practice"), (book.Requirements["topic.a-rule"].NotMetLayers[Stage.Plan], book.Requirements["topic.a-rule"].NotMetLayers[Stage.CloseOut]));

        Topic("ca", "  not-met: { plan: stop }");
        Assert.Equal(Severity.StopWork, Book("company", "ca").Requirements["topic.a-rule"].NotMet.Plan);
    }

    [Fact]
    public void A_tier_of_a_layer_raises_and_brings_its_source_beside_those_below()
    {
        Topic("us", "  tiers:\n    worse: { not-met: { plan: stop }, sources: [recalled] }");
        var tier = Book("us").Requirements["topic.a-rule"].Tiers["worse"];
        Assert.Equal(Severity.StopWork, tier.NotMet.Plan);
        Assert.Equal(["Recalled", "A law"], tier.Sources.Select(source => source.Citation));
    }

    [Theory]
    [InlineData("us", "  tiers:\n    worse: { not-met: { plan: caution } }", "a lower severity than the layers below set")]
    [InlineData("us", "  relaxed-by: the owner\n  not-met: { plan: caution }", "severities relaxed without a source")]
    [InlineData("us", "  limits:\n    thickness: { at-most: { inches: 2 }, or: { millimeters: 60 }, source: law }", "another value")]
    [InlineData("us", "  limits:\n    thickness: { at-most: { inches: 2 }, or: { millimeters: 51 }, source: law }", "a looser limit than general-practice sets")]
    [InlineData("us", "  limits:\n    group: { allows: some, source: law, a: { at-most: { inches: 2 } } }", "something else")]
    [InlineData("company", "  limits:\n    code: { barrier: { paint: { at-least: { inches: 0.1 }, source: law } } }", "a limit that code-a does not have among its own (code)")]
    public void What_would_loosen_unseen_is_refused_at_load(string layer, string entry, string found)
    {
        Limits("code-a", "code: { barrier: { source: law, allows: each, board: { at-least: { inches: 0.5 } } } }");
        Topic(layer, entry);
        Assert.Null(RuleLibrary.Load(_folder.Path, out _violations));
        var violation = Assert.Single(_violations);
        Assert.Equal((found, $"{layer}/topic.yaml"), (violation.Found, violation.File));
        Assert.True(violation.Line > 0);
    }

    [Fact]
    public void A_company_may_add_to_a_codes_list_by_authority()
    {
        Limits("code-a", "code: { barrier: { source: law, allows: each, board: { at-least: { inches: 0.5 } } } }");
        Limits("company", "code: { barrier: { paint: { at-least: { inches: 0.1 }, source: law, relaxes: true, authority: the building department } } }");
        Assert.Contains("code.barrier.paint", Book("company").Requirements["topic.a-rule"].Limits.Keys);
        Assert.Contains("by authority of the building department", Assert.Single(Book("company").Relaxations), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("new: { at-most: { inches: 1 }, source: law }", "new: { at-most: { milligrams_per_cubic_meter: 1 }, source: law }")]
    [InlineData("new: { at-most: { inches: 1 }, source: law }", "new: { at-least: { inches: 1 }, source: law }")]
    [InlineData("new: { at-most: { inches: 1 }, source: law }", "new: { any-of: [one], source: law }")]
    [InlineData("new: { is: { inches: 1 }, source: law }", "new: { is: { inches: 2 }, source: law }")]
    public void Limits_of_which_nobody_could_tell_the_stricter_are_refused_though_no_set_stands_on_the_other(string ours, string theirs)
    {
        Limits("ca", ours);
        Limits("us", theirs);
        Assert.Null(RuleLibrary.Load(_folder.Path, out _violations));
        Assert.Equal(("a value of which it cannot be told whether it is stricter than that of ca", "us/topic.yaml"), (Assert.Single(_violations).Found, _violations[0].File));
    }

    private void Head(string id, string head) => _folder.Write($"{id}/rule-set.yaml", $"title: {id}\nversion: 1.0.0\n{head}\n");

    private void Topic(string id, string entry) => _folder.Write($"{id}/topic.yaml", $"{Sources}topic.a-rule:\n{entry}\n");

    private void Limits(string id, string limits) => Topic(id, $"  limits:\n    {limits}");

    private Limit Limit(string name, params string[] sets) => Book(sets).Requirements["topic.a-rule"].Limits[name];

    private RuleBook Book(params string[] sets)
    {
        var library = RuleLibrary.Load(_folder.Path, out _violations);
        Assert.True(library is not null, string.Join(Environment.NewLine, _violations));
        return RuleBook.Build(library.Choose(new RuleSetQuestion(null, null, null, sets)).Layers);
    }
}
