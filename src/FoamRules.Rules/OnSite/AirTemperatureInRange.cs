using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.air-temperature-in-range: every standing reading of the air lies in the range of each data sheet used in the area.</summary>
public sealed class AirTemperatureInRange(RequirementSpec spec) : TemperatureInRange<AreaFacts>(spec)
{
    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var readings = StandingReadings.In(bearer, ReadingKind.AirTemperature);
        if (readings.IsEmpty)
        {
            return StandingReadings.None(bearer, "air temperature");
        }

        return Verdict.Worst(AreaSheets.Of(bearer.Work).SelectMany(sheet => readings.Select(reading => InRange(
            reading, sheet, (nameof(Product.MinAirTemperature), sheet.MinAirTemperature), (nameof(Product.MaxAirTemperature), sheet.MaxAirTemperature)))));
    }
}
