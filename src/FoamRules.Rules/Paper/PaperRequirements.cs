using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Paper;

/// <summary>The requirements of the topic <c>paper</c>: decisions and records.</summary>
public static class PaperRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["paper.stop-findings-cleared"] = spec => new StopFindingsCleared(spec),
        ["paper.plan-unchanged-since-review"] = spec => new PlanUnchangedSinceReview(spec),
        ["paper.work-date-fits-spraying"] = spec => new WorkDateFitsSpraying(spec),
        ["paper.density-and-adhesion-sampled"] = spec => new DensityAndAdhesionSampled(spec),
    }.ToImmutableDictionary();
}
