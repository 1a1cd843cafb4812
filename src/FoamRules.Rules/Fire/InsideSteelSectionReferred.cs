using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.inside-steel-section-referred: for foam inside a closed steel section a barrier or an approval is recorded, and the
/// designer of a rated member agreed to the fill.
/// </summary>
public sealed class InsideSteelSectionReferred(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => FoamPlace.IsInSteelSection(bearer) || CavityNotKnown(bearer) is not null ? null : "other-place";

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        if (CavityNotKnown(bearer) is { } fill)
        {
            return Verdict.Missing(fill, nameof(CavityFill.Cavity));
        }

        var fire = bearer.Fire;
        var recorded = Answer.Yes(fire.BarrierOrApprovalRecorded, fire, nameof(FireSituation.BarrierOrApprovalRecorded), "not-recorded");
        var rating = fire.RatedMember switch
        {
            null => Verdict.Missing(fire, nameof(FireSituation.RatedMember)),
            false => Verdict.Met(),
            true => Answer.Yes(fire.RatingDesignerAgreed, fire, nameof(FireSituation.RatingDesignerAgreed), "rated"),
        };
        return Verdict.Worst([recorded, rating]);
    }

    // A fill that names neither its cavity nor its place may be one in steel.
    private static CavityFill? CavityNotKnown(WorkFacts bearer) =>
        bearer is FillFacts { Fill: { Cavity: null, Section: null } fill } && bearer.Fire.Location is null ? fill : null;
}
