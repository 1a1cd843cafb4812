using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.humidity-below-limit: the relative humidity is at most what the data sheet allows, or the rule set's figure where the sheet is silent.</summary>
public sealed class HumidityBelowLimit(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    private readonly Limit _humidity = spec.Limits["humidity"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var readings = StandingReadings.In(bearer, ReadingKind.RelativeHumidity);
        if (readings.IsEmpty)
        {
            return StandingReadings.None(bearer, "relative humidity");
        }

        return Verdict.Worst(AreaSheets.Of(bearer.Work).SelectMany(sheet => readings.Select(reading => UnderLimit(reading, sheet))));
    }

    private Verdict UnderLimit(Reading reading, Product sheet)
    {
        if (reading.Humidity is not { } humidity)
        {
            return Verdict.Missing(reading, nameof(Reading.Humidity));
        }

        var limit = Governing(FromSheet(sheet, nameof(Product.MaxHumidity), sheet.MaxHumidity, Tighter.Lower), _humidity);
        return Hold(humidity, limit).On(reading, nameof(Reading.Humidity), humidity).With("product", sheet.Id);
    }
}
