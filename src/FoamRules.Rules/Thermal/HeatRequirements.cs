using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Thermal;

/// <summary>The requirements of the topic <c>heat</c>: does the foam do its thermal job.</summary>
public static class HeatRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["heat.no-surface-condensation"] = spec => new NoSurfaceCondensation(spec),
        ["heat.r-value-reached"] = spec => new RValueReached(spec),
        ["heat.steel-bridge-stays-warm"] = spec => new SteelBridgeStaysWarm(spec),
        ["heat.vapour-control-provided"] = spec => new VapourControlProvided(spec),
    }.ToImmutableDictionary();
}
