using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>fire.waste-cools-outside: trimmings and test buns are cut up, spread outside and cooled before the bin.</summary>
public sealed class WasteCoolsOutside(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Ignition;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer) => Verdict.Confirmed(bearer.Item.WasteCoolsOutside, bearer.Item, nameof(WorkItem.WasteCoolsOutside));
}
