using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Passes;

/// <summary>The requirements of the topic <c>pass</c>: sprayed foam, built up.</summary>
public static class PassRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["pass.daily-build-within-limit"] = spec => new DailyBuildWithinLimit(spec),
        ["pass.heat-can-leave"] = spec => new HeatCanLeave(spec),
        ["pass.day-has-time"] = spec => new DayHasTime(spec),
        ["pass.hot-pipe-in-foam"] = spec => new HotPipeInFoam(spec),
        ["pass.measured-thickness-holds"] = spec => new MeasuredThicknessHolds(spec),
        ["pass.not-onto-rising-foam"] = spec => new NotOntoRisingFoam(spec),
        ["pass.sum-gives-thickness"] = spec => new SumGivesThickness(spec),
        ["pass.surface-cool-before-next"] = spec => new SurfaceCoolBeforeNext(spec),
        ["pass.thickness-not-too-thin"] = spec => new ThicknessNotTooThin(spec),
        ["pass.thickness-within-limit"] = spec => new ThicknessWithinLimit(spec),
        ["pass.wait-long-enough"] = spec => new WaitLongEnough(spec),
    }.ToImmutableDictionary();
}
