using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>The requirements of the topic <c>site</c>: air, surface, building and neighbours before the trigger.</summary>
public static class SiteRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["site.surface-temperature-in-range"] = spec => new SurfaceTemperatureInRange(spec),
        ["site.air-temperature-in-range"] = spec => new AirTemperatureInRange(spec),
        ["site.humidity-below-limit"] = spec => new HumidityBelowLimit(spec),
        ["site.surface-above-dew-point"] = spec => new SurfaceAboveDewPoint(spec),
        ["site.wind-below-limit"] = spec => new WindBelowLimit(spec),
        ["site.wood-dry"] = spec => new WoodDry(spec),
        ["site.concrete-cured-and-dry"] = spec => new ConcreteCuredAndDry(spec),
        ["site.readings-fresh"] = spec => new ReadingsFresh(spec),
        ["site.asbestos-surveyed"] = spec => new AsbestosSurveyed(spec),
        ["site.coatings-tested"] = spec => new CoatingsTested(spec),
        ["site.services-isolated"] = spec => new ServicesIsolated(spec),
        ["site.occupied-building-agreed"] = spec => new OccupiedBuildingAgreed(spec),
        ["site.trades-coordinated"] = spec => new TradesCoordinated(spec),
        ["site.light-and-no-lone-work"] = spec => new LightAndNoLoneWork(spec),
    }.ToImmutableDictionary();
}
