using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>fill.drainage-kept: weep holes that the designer needs stay open below the foam, or the designer agreed to close them.</summary>
public sealed class DrainageKept(RequirementSpec spec) : Requirement<FillFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HolesInMember;

    /// <inheritdoc/>
    protected override string? WhyNot(FillFacts bearer) => bearer.Fill.WeepHoles is { Holes.IsEmpty: true } ? "no-weep-holes" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(FillFacts bearer)
    {
        var fill = bearer.Fill;
        if (fill.WeepHoles is not { } weeps)
        {
            return Verdict.Missing(fill, nameof(CavityFill.WeepHoles));
        }

        if (weeps.DesignerAgreedToClose is true)
        {
            return Verdict.Met().On(weeps, nameof(WeepHoles.DesignerAgreedToClose));
        }

        // A hole beside the foam is closed by it, whatever the plan says of it.
        var bottom = fill.Compartments.Select(compartment => compartment.From ?? Length.Zero).Order().FirstOrDefault(Length.Zero);
        if (weeps.Holes.FirstOrDefault(hole => hole.Height is { } height && Quantities.Compare(height, bottom) > 0) is { } covered)
        {
            return Verdict.NotMet("in-the-foam").With("height", covered.Height!.Value).With("bottom", bottom).On(covered, nameof(Hole.Height), covered.Height.Value);
        }

        return weeps switch
        {
            { StayOpen: true } => Verdict.Met().On(weeps, nameof(WeepHoles.StayOpen)),
            { StayOpen: null } => Verdict.Missing(weeps, nameof(WeepHoles.StayOpen)),
            { DesignerAgreedToClose: null } => Verdict.Missing(weeps, nameof(WeepHoles.DesignerAgreedToClose)),
            _ => Verdict.NotMet().On(weeps, nameof(WeepHoles.StayOpen)),
        };
    }
}
