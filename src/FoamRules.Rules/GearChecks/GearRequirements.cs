using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.GearChecks;

/// <summary>The requirements of the topic <c>gear</c>: hoses, heat, ratio, output.</summary>
public static class GearRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["gear.enough-material"] = spec => new EnoughMaterial(spec),
        ["gear.fluid-temperatures-in-range"] = spec => new FluidTemperaturesInRange(spec),
        ["gear.hose-reaches"] = spec => new HoseReaches(spec),
        ["gear.output-measured"] = spec => new OutputMeasured(spec),
        ["gear.pressures-balanced"] = spec => new PressuresBalanced(spec),
        ["gear.ratio-in-tolerance"] = spec => new RatioInTolerance(spec),
    }.ToImmutableDictionary();
}
