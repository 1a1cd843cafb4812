using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>body.heat-managed: water, rests, new workers eased in, and suits that let no vapour through counted.</summary>
public sealed class HeatManaged(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Strain;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer) => bearer.Area.Heat is { } heat
        ? Verdict.Worst(
        [
            Answer.Yes(heat.Water, heat, nameof(HeatPlan.Water), "no-water"),
            Answer.Yes(heat.Rests, heat, nameof(HeatPlan.Rests), "no-rests"),
            Answer.Yes(heat.Acclimatization, heat, nameof(HeatPlan.Acclimatization), "not-eased-in"),
            Answer.Yes(heat.SuitsCounted, heat, nameof(HeatPlan.SuitsCounted), "suits-not-counted"),
        ])
        : Verdict.Missing(bearer.Area, nameof(WorkArea.Heat));
}
