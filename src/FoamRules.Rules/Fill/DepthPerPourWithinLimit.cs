using FoamRules.Model;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.depth-per-pour-within-limit: no pour rises higher than the data sheet allows, read at minimum-fill density. No pour
/// rises higher than its compartment, and a single shot is there to fill it.
/// </summary>
public sealed class DepthPerPourWithinLimit(RequirementSpec spec) : FillRequirement(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var sheet = numbers.Facts.Sheet;
        return FromSheet(sheet, nameof(Product.MaxRisePerPour), sheet.MaxRisePerPour, Tighter.Lower) is { } limit
            ? InEachSpace(numbers, space => InSpace(numbers, space, limit))
            : Verdict.Missing(sheet, nameof(Product.MaxRisePerPour));
    }

    private static Verdict InSpace(FillNumbers numbers, FillSpace space, Limit limit)
    {
        var whole = Hold(space.Length, limit).On(numbers.Fill, nameof(CavityFill.Height));
        if (whole.Outcome == Outcome.Met)
        {
            return whole;
        }

        var shots = numbers.ShotsInto(space);
        if (shots.Gap is { } unknown)
        {
            return unknown;
        }

        return shots.Value.Length == 1 ? whole : Verdict.Worst(shots.Value.Select(shot =>
        {
            // A factor that is not known is at least 1: a rise that is within the limit even then is within it.
            var rise = numbers.Rise(shot.Time, numbers.FlowFactor.Gap is null ? numbers.FlowFactor.Value : FillNumbers.LeastFlowFactor);
            if (rise.Gap is { } gap)
            {
                return Gaps.Of(gap, numbers.FlowFactor.Gap)!;
            }

            var held = Hold(rise.Value, limit).On(shot.Shot, nameof(Shot.TriggerTime), shot.Time).Worked(rise.Steps);
            return held.Outcome == Outcome.NotMet && numbers.FlowFactor.Gap is { } missing ? missing : held;
        }));
    }
}
