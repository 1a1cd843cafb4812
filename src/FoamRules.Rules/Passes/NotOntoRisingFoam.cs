using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.not-onto-rising-foam: the written method says that no area is sprayed again before rise has stopped and the wait has
/// run, and that rising foam is never thickened.
/// </summary>
public sealed class NotOntoRisingFoam(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer) =>
        Verdict.Confirmed(bearer.Spray.NeverOntoRisingFoam, bearer.Spray, nameof(SprayApplication.NeverOntoRisingFoam));
}
