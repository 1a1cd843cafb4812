using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>fill.shot-ends-before-gel: no shot is longer than the data sheet's longest shot or, where it gives none, its cream time.</summary>
public sealed class ShotEndsBeforeGel(RequirementSpec spec) : Requirement<FillFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PressureInCavity;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <summary>The longest shot that a sheet allows; null where it gives neither figure.</summary>
    public static Limit? Longest(Product sheet) =>
        FromSheet(sheet, nameof(Product.LongestShot), sheet.LongestShot, Tighter.Lower)
        ?? FromSheet(sheet, nameof(Product.CreamTime), sheet.CreamTime, Tighter.Lower);

    /// <inheritdoc/>
    protected override Verdict Judge(FillFacts bearer)
    {
        var shots = bearer.Fill.Shots;
        var noShots = shots.IsEmpty ? Verdict.Missing(bearer.Fill, nameof(CavityFill.Shots)) : null;
        if (Longest(bearer.Sheet) is not { } longest)
        {
            return Gaps.Of(noShots, Verdict.Missing(bearer.Sheet, nameof(Product.LongestShot)))!;
        }

        return noShots ?? Verdict.Worst(shots.Select(shot => shot.TriggerTime is { } time
            ? Hold(time, longest).With("shots", (long)Math.Ceiling(time / longest.As<Duration>())).On(shot, nameof(Shot.TriggerTime), time)
            : Verdict.Missing(shot, nameof(Shot.TriggerTime))));
    }
}
