using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>fire.escape-kept: two ways out, or the one kept behind the sprayer; hoses clear of it; in an attic or crawl space an attendant outside.</summary>
public sealed class EscapeKept(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.NoWayOut;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer) => Verdict.Confirmed(bearer.Area.EscapeKept, bearer.Area, nameof(WorkArea.EscapeKept));
}
