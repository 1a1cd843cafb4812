using FoamRules.Model;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.shot-fills-cavity: in each compartment the low end of the planned mass is at least the minimum fill mass of the
/// largest likely void, at the site's air pressure and steel temperature. At close-out the shots of the plan are those made.
/// </summary>
public sealed class ShotFillsCavity : FillRequirement
{
    private readonly Limit _minimumFill;
    private readonly Ratio _share;

    /// <summary>The requirement as the rule sets state it.</summary>
    public ShotFillsCavity(RequirementSpec spec)
        : base(spec)
    {
        _minimumFill = Need("minimum-fill");
        _share = _minimumFill.As<Ratio>();
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HiddenVoid;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers) => InEachSpace(numbers, space =>
    {
        var planned = numbers.PlannedMass(space);
        // A factor that is not known is at least 1: a mass that is too small even then is too small.
        var needed = numbers.MinimumFill(space, voids => voids.Largest, numbers.FlowFactor.Gap is null ? numbers.FlowFactor.Value : FillNumbers.LeastFlowFactor);
        if (Gaps.Of(planned.Gap, needed.Gap) is { } gap)
        {
            return Gaps.Of(gap, numbers.FlowFactor.Gap)!;
        }

        var limit = _minimumFill.Amounting(needed.Value * _share.DecimalFractions);
        var held = Hold(planned.Value.Low, limit).On(numbers.Fill, nameof(CavityFill.Shots)).Worked(planned.Steps).Worked(needed.Steps);
        return held.Outcome == Outcome.Met && numbers.FlowFactor.Gap is { } unknown ? unknown : held;
    });
}
