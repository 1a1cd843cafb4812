using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Air;

/// <summary>The requirements of the topic <c>air</c>: ventilation, exclusion, coming back.</summary>
public static class AirRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["air.exhaust-sufficient"] = spec => new ExhaustSufficient(spec),
        ["air.enclosure-negative"] = spec => new EnclosureNegative(spec),
        ["air.intakes-protected"] = spec => new IntakesProtected(spec),
        ["air.exclusion-zone-set"] = spec => new ExclusionZoneSet(spec),
        ["air.occupants-out"] = spec => new OccupantsOut(spec),
        ["air.ventilation-goes-on"] = spec => new VentilationGoesOn(spec),
        ["air.trades-reentry-long-enough"] = spec => new TradesReentryLongEnough(spec),
        ["air.occupants-return-long-enough"] = spec => new OccupantsReturnLongEnough(spec),
        ["air.engine-exhaust-kept-out"] = spec => new EngineExhaustKeptOut(spec),
        ["air.supplied-air-to-the-end"] = spec => new SuppliedAirToTheEnd(spec),
    }.ToImmutableDictionary();
}
