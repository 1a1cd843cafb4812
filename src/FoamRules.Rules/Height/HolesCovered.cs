using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Height;

/// <summary>height.holes-covered: every hole and skylight on the work's roof or floor is covered, guarded or tied off.</summary>
public sealed class HolesCovered(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Fall;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer) => bearer.Area.Access is { } access
        ? Verdict.Confirmed(access.HolesCovered, access, nameof(Access.HolesCovered))
        : Verdict.Missing(bearer.Area, nameof(WorkArea.Access));
}
