using FoamRules.Model;

namespace FoamRules.Remedies.Tests;

/// <summary>The example with a dozen things wrong: what is tried, and the amended text.</summary>
public sealed class BrokenPlanTests(BrokenPlanTests.Broken broken) : IClassFixture<BrokenPlanTests.Broken>
{
    [Theory]
    [InlineData("height.fall-protection", "areas[dock].access.protection", "[guardrail]")]
    [InlineData("pass.thickness-within-limit", "work[office-wall].spray.passes", "[{ thickness: { inches: 2 }, day: 1 }, { thickness: { inches: 2 }, wait_before: { minutes: 60 }, day: 1 }]")]
    [InlineData("fire.no-welding-on-filled-section", "areas[dock].hot_work.items[0].timing", "before-foam")]
    [InlineData("body.respirator-protects-enough", "people[sprayer].respirator.facepiece", "full-facepiece")]
    [InlineData("fire.separated-from-interior", "work[office-wall].fire.covering", "{ material: gypsum-board, thickness: { inches: 0.5 }, fastened_to_structure: true }")]
    [InlineData("product.suits-substrate", "work[posts].primed", "true")]
    [InlineData("air.trades-reentry-long-enough", "areas[dock].reentry.trades_after", "{ hours: 24 }")]
    public void A_finding_has_the_smallest_change_that_clears_it(string requirement, string path, string write)
    {
        var remedy = broken.Plan.Remedies.Tried.First(tried => tried.Requirement == requirement);
        Assert.Contains((path, write), remedy.Changes.Select(change => (change.Path, change.Write)));
    }

    // The fit test was with the old mask: what it was is asked for again.
    [Fact]
    public void What_was_known_of_the_old_mask_is_taken_out()
    {
        var remedy = broken.Plan.Remedies.Tried.Single(tried => tried.Requirement == "body.respirator-protects-enough");
        Assert.Contains(("people[sprayer].respirator.make_model_size", "null"), remedy.Changes.Select(change => (change.Path, change.Write)));
    }

    [Theory]
    [InlineData("site.services-isolated")]
    [InlineData("fill.compartments-mapped")]
    [InlineData("air.occupants-out")]
    [InlineData("pass.not-onto-rising-foam")]
    [InlineData("product.kind-suits-work")]
    [InlineData("body.fit-tested")]
    public void What_a_person_must_answer_is_left_to_people(string requirement)
    {
        Assert.DoesNotContain(broken.Plan.Remedies.Tried, tried => tried.Requirement == requirement);
        Assert.Contains(broken.Plan.Remedies.WholePlan.Decisions, decision => decision.Requirement == requirement);
    }

    [Theory]
    [InlineData("cold-store-dock.yaml")]
    [InlineData("cold-store-dock-quote.yaml")]
    public void No_plan_comes_out_worse(string name)
    {
        var plan = Remedied.Of(Remedied.Example(name));
        Assert.True(plan.Remedies.WholePlan.Disposition <= plan.Report.Disposition);
        Assert.Empty(plan.NoChoice(plan.Remedies.WholePlan.Changes));
    }

    [Fact]
    public void Only_choices_are_changed() => Assert.Empty(broken.Plan.NoChoice(broken.Plan.Remedies.WholePlan.Changes));

    [Fact]
    public void The_amended_text_keeps_every_comment_and_checks_to_what_was_promised()
    {
        var whole = broken.Plan.Remedies.WholePlan;
        Assert.NotEmpty(whole.Changes);
        var amended = broken.Plan.With(whole.Changes);
        Assert.All(Comments(broken.Plan.Text), comment => Assert.Contains(comment, Comments(amended)));
        var again = Remedied.Check(amended);
        Assert.Equal(whole.Disposition, again.Disposition);
        Assert.All(whole.Cleared, cleared => Assert.DoesNotContain(again.Findings, finding => finding.Requirement == cleared.Requirement && finding.Subject == cleared.Subject));
        var open = again.Findings.Where(finding => finding.Severity >= Severity.HoldPoint).Select(finding => (finding.Requirement, finding.Subject)).ToHashSet();
        Assert.Equal(open, whole.Decisions.Select(decision => (decision.Requirement, decision.Subject)).ToHashSet());
    }

    private static List<string> Comments(string text) => [.. text.Split('\n').Where(line => line.Contains('#', StringComparison.Ordinal)).Select(line => line[line.IndexOf('#', StringComparison.Ordinal)..].Trim())];

    public sealed class Broken
    {
        internal Remedied Plan { get; } = Remedied.Of(Remedied.Example("cold-store-dock-broken.yaml"));
    }
}
