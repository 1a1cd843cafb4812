using FoamRules.Model;

namespace FoamRules.Remedies.Tests;

/// <summary>Vents of the sound example, spoiled. The engineer has agreed the holes as they were: that is asked for again with any change of them.</summary>
public sealed class VentTests
{
    private const string Vent = "vent_holes: { holes: [{ diameter: { inches: 0.75 }, height: { feet: 10 }, distance_to_weld: { inches: 2 }, distance_to_corner: { inches: 3 } }] }";
    private const string Agreed = "work[posts].cavity_fill.hole_limits.engineer_agreed";

    // No vent stops the plan; that the engineer must be asked again holds it. The wall is so strong that it needs no figure: as wide as the fill hole.
    [Fact]
    public void A_vent_is_proposed_and_the_agreement_is_asked_again()
    {
        var plan = Of("vent_holes: { holes: [] }");
        var remedy = plan.Remedies.Tried.Single(tried => tried.Requirement == "vent.air-can-leave");
        Assert.Equal(["work[posts].cavity_fill.vent_holes.holes", Agreed], remedy.Changes.Select(change => change.Path));
        Assert.Contains("inches: 0.75", remedy.Changes[0].Write, StringComparison.Ordinal);
        Assert.Equal("null", remedy.Changes[1].Write);
        Assert.Contains(remedy.Brought, brought => brought is { Requirement: "vent.engineer-agreed-holes", Severity: Severity.HoldPoint });
        Assert.Equal(Disposition.Hold, plan.Remedies.WholePlan.Disposition);
        Assert.Contains(plan.Remedies.WholePlan.Decisions, decision => decision.Requirement == "vent.engineer-agreed-holes");
    }

    // A vent below the top holds, and so does asking the engineer again: it is not made, and said to the people who decide.
    [Fact]
    public void A_change_that_brings_as_much_as_it_cures_is_not_made_and_stands_with_the_decisions()
    {
        var plan = Of(Vent.Replace("feet: 10 }", "feet: 8 }", StringComparison.Ordinal));
        Assert.DoesNotContain(plan.Remedies.Tried, tried => tried.Requirement == "vent.at-the-top-of-rise");
        Assert.Empty(plan.Remedies.WholePlan.Changes);
        var decision = plan.Remedies.WholePlan.Decisions.Single(one => one.Requirement == "vent.at-the-top-of-rise");
        Assert.Equal(["work[posts].cavity_fill.vent_holes.holes[0].height", Agreed], decision.NotMade.Select(change => change.Path));
        Assert.Equal("8 ft", decision.NotMade[0].Before);
        Assert.Contains(decision.NotMadeBrings, brought => brought is { Requirement: "vent.engineer-agreed-holes", Severity: Severity.HoldPoint });
        Assert.All(plan.Remedies.WholePlan.Decisions.Where(one => one != decision), other => Assert.Empty(other.NotMade));
    }

    private static Remedied Of(string vent)
    {
        var text = Remedied.Example("cold-store-dock.yaml");
        Assert.Contains(Vent, text, StringComparison.Ordinal);
        return Remedied.Of(text.Replace(Vent, vent, StringComparison.Ordinal));
    }
}
