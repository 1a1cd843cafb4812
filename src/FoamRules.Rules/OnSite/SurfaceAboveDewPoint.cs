using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.OnSite;

/// <summary>
/// site.surface-above-dew-point: the coldest surface lies far enough above the dew point, or the frost point, of the air around
/// it. At or below it the surface is wet: the tier <c>wet</c>. Below freezing a humidity is over water unless its reading says over ice.
/// </summary>
public sealed class SurfaceAboveDewPoint(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    private readonly Limit _margin = spec.Limits["margin"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var surfaces = StandingReadings.For(bearer, ReadingKind.SurfaceTemperature);
        var air = StandingReadings.In(bearer.Area, ReadingKind.AirTemperature);
        var humidities = StandingReadings.In(bearer.Area, ReadingKind.RelativeHumidity);
        if (surfaces.IsEmpty || air.IsEmpty || humidities.IsEmpty)
        {
            string[] absent = [surfaces.IsEmpty ? "surface temperature" : "", air.IsEmpty ? "air temperature" : "", humidities.IsEmpty ? "relative humidity" : ""];
            return StandingReadings.None(bearer.Area, [.. absent.Where(what => what.Length > 0)]);
        }

        var limit = Governing(FromSheet(bearer.Sheet, nameof(Product.DewPointMargin), bearer.Sheet.DewPointMargin, Tighter.Higher), _margin);
        return Verdict.Worst(
            from humidity in humidities
            from temperature in WithIt(humidity, air)
            from surface in surfaces
            select FarEnough(surface, temperature, humidity, limit));
    }

    // The air temperature that a humidity goes with: the one of its place; where no place is named, any of the area's may be it.
    private static IEnumerable<Reading> WithIt(Reading humidity, ImmutableArray<Reading> air) =>
        air.Any(reading => reading.Place == humidity.Place) ? air.Where(reading => reading.Place == humidity.Place) : air;

    private static Verdict FarEnough(Reading surface, Reading air, Reading humidity, Limit limit)
    {
        if (surface.Temperature is not { } atSurface || air.Temperature is not { } inAir || humidity.Humidity is not { } share)
        {
            return Verdict.Worst(
            [
                surface.Temperature is null ? Verdict.Missing(surface, nameof(Reading.Temperature)) : Verdict.Met(),
                air.Temperature is null ? Verdict.Missing(air, nameof(Reading.Temperature)) : Verdict.Met(),
                humidity.Humidity is null ? Verdict.Missing(humidity, nameof(Reading.Humidity)) : Verdict.Met(),
            ]);
        }

        var reference = humidity.OverIce == true ? HumidityReference.Ice : HumidityReference.Water;
        var dew = Psychrometrics.DewPoint(inAir, RelativeHumidity.FromPercent(share.Percent), reference);
        if (dew.Refusal is { } noDewPoint)
        {
            return Verdict.OutOfRange(noDewPoint);
        }

        var above = Psychrometrics.MarginAboveDewPoint(atSurface, dew.Value);
        if (above.Refusal is { } noMargin)
        {
            return Verdict.OutOfRange(noMargin);
        }

        var isWet = Quantities.Compare(atSurface, dew.Value.Temperature) <= 0;
        var verdict = Hold(above.Value, limit)
            .On(surface, nameof(Reading.Temperature), atSurface).On(air, nameof(Reading.Temperature), inAir).On(humidity, nameof(Reading.Humidity), share)
            .With("surface", atSurface).With("dew-point", dew.Value.Temperature)
            .With("point", dew.Value.Kind == CondensationKind.FrostPoint ? Spoken.Word("frost point") : Spoken.Word("dew point"))
            .Worked(dew.Steps).Worked(above.Steps);
        return isWet && verdict.Outcome == Outcome.NotMet ? verdict.AtTier("wet").Saying("wet") : verdict;
    }
}
