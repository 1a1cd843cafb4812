using FoamRules.Model;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.shot-does-not-overfill: in each compartment the high end of the planned mass is at most the minimum fill mass of the
/// smallest likely void and the overpack that the sheet or the rule set allows.
/// </summary>
public sealed class ShotDoesNotOverfill : FillRequirement
{
    private readonly Limit _overpack;

    /// <summary>The requirement as the rule sets state it.</summary>
    public ShotDoesNotOverfill(RequirementSpec spec)
        : base(spec)
    {
        _overpack = Need("overpack");
        _ = _overpack.As<Ratio>();
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PressureInCavity;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers) => InEachSpace(numbers, space =>
    {
        var sheet = numbers.Facts.Sheet;
        var overpack = Governing(FromSheet(sheet, nameof(Product.MaxOverpack), sheet.MaxOverpack, Tighter.Lower), _overpack);
        var planned = numbers.PlannedMass(space);
        // A factor that is not known is at least 1: a mass that does not overfill even then does not overfill.
        var fill = numbers.MinimumFill(space, voids => voids.Smallest, numbers.FlowFactor.Gap is null ? numbers.FlowFactor.Value : FillNumbers.LeastFlowFactor);
        if (Gaps.Of(planned.Gap, fill.Gap) is { } gap)
        {
            return Gaps.Of(gap, numbers.FlowFactor.Gap)!;
        }

        var limit = overpack.Amounting(fill.Value * (1 + overpack.As<Ratio>().DecimalFractions));
        var held = Hold(planned.Value.High, limit).On(numbers.Fill, nameof(CavityFill.Shots)).With("overpack", overpack.Value).Worked(planned.Steps).Worked(fill.Steps);
        return held.Outcome == Outcome.NotMet && numbers.FlowFactor.Gap is { } unknown ? unknown : held;
    });
}
