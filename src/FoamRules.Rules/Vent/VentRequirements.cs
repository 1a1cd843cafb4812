using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Vent;

/// <summary>The requirements of the topic <c>vent</c>: holes in the cavity.</summary>
public static class VentRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["vent.air-can-leave"] = spec => new AirCanLeave(spec),
        ["vent.area-keeps-pressure-low"] = spec => new AreaKeepsPressureLow(spec),
        ["vent.at-the-top-of-rise"] = spec => new AtTheTopOfRise(spec),
        ["vent.drilled-before-foam"] = spec => new DrilledBeforeFoam(spec),
        ["vent.fill-hole-takes-nozzle"] = spec => new FillHoleTakesNozzle(spec),
        ["vent.hole-clear-of-welds-and-corners"] = spec => new HoleClearOfWeldsAndCorners(spec),
        ["vent.hole-small-for-section"] = spec => new HoleSmallForSection(spec),
    }.ToImmutableDictionary();
}
