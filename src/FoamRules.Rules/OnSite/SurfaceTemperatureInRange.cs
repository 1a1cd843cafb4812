using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.surface-temperature-in-range: every standing reading of the surface lies in the data sheet's range.</summary>
public sealed class SurfaceTemperatureInRange(RequirementSpec spec) : TemperatureInRange<WorkFacts>(spec)
{
    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var readings = StandingReadings.For(bearer, ReadingKind.SurfaceTemperature);
        if (readings.IsEmpty)
        {
            return StandingReadings.None(bearer.Area, "surface temperature");
        }

        var sheet = bearer.Sheet;
        return Verdict.Worst(readings.Select(reading => InRange(
            reading, sheet, (nameof(Product.MinSurfaceTemperature), sheet.MinSurfaceTemperature), (nameof(Product.MaxSurfaceTemperature), sheet.MaxSurfaceTemperature))));
    }
}
