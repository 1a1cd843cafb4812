using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>fire.cables-not-bundled: where more cables than the limit share one foamed opening, their ampacity was adjusted.</summary>
public sealed class CablesNotBundled : Requirement<WorkFacts>
{
    private readonly Limit _cables;

    /// <summary>Reads its limit.</summary>
    public CablesNotBundled(RequirementSpec spec)
        : base(spec) => _cables = Need("cables");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Ignition;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => FoamPlace.IsInSteelSection(bearer) ? "steel-section" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var fire = bearer.Fire;
        if (fire.CablesInOneOpening is not { } cables)
        {
            return Verdict.Missing(fire, nameof(FireSituation.CablesInOneOpening));
        }

        var held = Hold(cables, _cables).On(fire, nameof(FireSituation.CablesInOneOpening), Measure.OfCount(cables));
        return held.Outcome == Outcome.Met ? held : fire.AmpacityAdjusted switch
        {
            true => Verdict.Met().On(fire, nameof(FireSituation.AmpacityAdjusted)),
            false => held,
            null => Verdict.Missing(fire, nameof(FireSituation.AmpacityAdjusted)),
        };
    }
}
