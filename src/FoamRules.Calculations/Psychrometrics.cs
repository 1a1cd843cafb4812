using FoamRules.Model;
using UnitsNet;
using UnitsNet.Units;

namespace FoamRules.Calculations;

/// <summary>What a relative humidity below freezing refers to.</summary>
public enum HumidityReference
{
    /// <summary>Over (supercooled) water: what humidity sensors report.</summary>
    Water,

    /// <summary>Over ice. Above the triple point there is no ice and this means the same as <see cref="Water"/>.</summary>
    Ice,
}

/// <summary>What forms on a surface at the temperature found.</summary>
public enum CondensationKind
{
    /// <summary>Dew: liquid water, at or above the triple point (0.01 °C).</summary>
    DewPoint,

    /// <summary>Frost: ice, below the triple point.</summary>
    FrostPoint,
}

/// <summary>The temperature at which moist air begins to condense on a surface.</summary>
/// <param name="Temperature">The dew point or frost point.</param>
/// <param name="Kind">Which of the two it is.</param>
/// <param name="VapourPressure">The partial pressure of the water vapour in the air.</param>
public sealed record CondensationPoint(Temperature Temperature, CondensationKind Kind, Pressure VapourPressure);

/// <summary>Moist air: saturation pressure, dew point or frost point, and the margin of a surface above it.</summary>
public static class Psychrometrics
{
    private const double LowestKelvin = 173.15;
    private const double HighestKelvin = 473.15;
    private const double LowestSupercooledKelvin = 228.15;
    private const double TriplePointKelvin = 273.16;

    private const string HylandWexlerSource =
        "ASHRAE Handbook Fundamentals 2017, ch. 1, Hyland-Wexler 1983 (read in a public transcription to 6 digits; further digits from memory)";

    private const string MagnusSource =
        "WMO Guide No. 8 (2008), Annex 4.B, Magnus formula over water, −45 to 60 °C (read as quoted)";

    /// <summary>
    /// Saturation pressure of water vapour in Pa over water, over ice below the triple point:
    /// ln p = C₁/T + C₂ + C₃T + C₄T² + C₅T³ (+ C₆T⁴) + C₇ ln T, T in K. Range −100 to 200 °C.
    /// The formulas change at the triple point 0.01 °C, not at 0 °C: there they meet, so the inversion has no jump.
    /// Source: ASHRAE Handbook Fundamentals 2017, ch. 1 (Hyland-Wexler 1983).
    /// </summary>
    public static Calculated<Pressure> SaturationPressure(Temperature temperature)
    {
        if (OutsideHylandWexler("temperature", temperature, LowestKelvin) is { } refusal)
            return Calculated<Pressure>.Refuse(refusal);
        var pressure = Pressure.FromPascals(HylandWexler(temperature.Kelvins));
        return Calculated<Pressure>.From(pressure, Line.Of(
            "saturation pressure",
            temperature.Kelvins < TriplePointKelvin ? IceFormula : WaterFormula,
            pressure,
            HylandWexlerSource,
            Line.In("T", "temperature", temperature.ToUnit(TemperatureUnit.Kelvin))));
    }

    /// <summary>
    /// Dew point of moist air, or frost point when it lies below the triple point (0.01 °C): the temperature whose saturation
    /// pressure is the vapour pressure p = φ × p_sat(air), found by bracketing, to the last digit of a double.
    /// Range: air −100 to 200 °C (−45 to 200 °C for a humidity over water), 0 &lt; φ ≤ 100 %, result not below −100 °C.
    /// Below freezing φ is taken over water, where the saturation pressure is the WMO Magnus formula, as Hyland-Wexler gives none
    /// for supercooled water; so frost may form on surfaces a little warmer than the air.
    /// Sources: ASHRAE Handbook Fundamentals 2017, ch. 1; WMO Guide No. 8 (2008).
    /// </summary>
    public static Calculated<CondensationPoint> DewPoint(Temperature air, RelativeHumidity humidity, HumidityReference reference = HumidityReference.Water)
    {
        var supercooled = reference == HumidityReference.Water && air.Kelvins < TriplePointKelvin;
        if (Gate.First(
                OutsideHylandWexler("air temperature", air, supercooled ? LowestSupercooledKelvin : LowestKelvin),
                Gate.Require(humidity.Percent is > 0 and <= 100, "relative humidity", Measure.Of(humidity), "more than 0 % and at most 100 %",
                    "dry air has no dew point and air over 100 % is not an equilibrium state")) is { } refusal)
            return Calculated<CondensationPoint>.Refuse(refusal);

        var saturation = Pressure.FromPascals(supercooled ? MagnusOverWater(air) : HylandWexler(air.Kelvins));
        var vapour = humidity.Percent / RelativeHumidity.FromPercent(100).Percent * saturation;
        if (vapour.Pascals < HylandWexler(LowestKelvin))
            return Calculated<CondensationPoint>.Refuse("relative humidity", Measure.Of(humidity), "high enough for a frost point of −100 °C or more",
                "the saturation pressure over ice is known down to −100 °C only");

        var isFrost = vapour.Pascals < HylandWexler(BelowTriplePoint);
        var point = Temperature.FromKelvins(isFrost
                ? Invert(vapour.Pascals, LowestKelvin, BelowTriplePoint)
                : Invert(vapour.Pascals, TriplePointKelvin, HighestKelvin))
            .ToUnit(TemperatureUnit.DegreeCelsius);
        return Calculated<CondensationPoint>.From(
            new CondensationPoint(point, isFrost ? CondensationKind.FrostPoint : CondensationKind.DewPoint, vapour),
            Line.Of("saturation pressure at air temperature",
                supercooled ? "p_sat = 6.112 exp(17.62 t/(243.12 + t)) hPa, t in °C, over supercooled water" : air.Kelvins < TriplePointKelvin ? IceFormula : WaterFormula,
                saturation,
                supercooled ? MagnusSource : HylandWexlerSource,
                Line.In("t", "air temperature", air)),
            Line.Of("vapour pressure", "p = φ × p_sat", vapour, "definition of relative humidity",
                Line.In("φ", "relative humidity", humidity),
                Line.In("p_sat", "saturation pressure", saturation)),
            Line.Of(isFrost ? "frost point" : "dew point", "p_sat(t_d) = p, solved for t_d by bracketing", point, HylandWexlerSource,
                Line.In("p", "vapour pressure", vapour)));
    }

    /// <summary>
    /// Margin of a surface above the dew point or frost point: ΔT = t_surface − t_d, in K; negative when the surface is colder and
    /// will be wet or frosted. Range: surface −100 to 200 °C. Source: definition.
    /// </summary>
    public static Calculated<TemperatureDelta> MarginAboveDewPoint(Temperature surface, CondensationPoint point)
    {
        if (OutsideHylandWexler("surface temperature", surface, LowestKelvin) is { } refusal)
            return Calculated<TemperatureDelta>.Refuse(refusal);
        var margin = TemperatureDelta.FromKelvins(surface.Kelvins - point.Temperature.Kelvins);
        var name = point.Kind == CondensationKind.FrostPoint ? "frost point" : "dew point";
        return Calculated<TemperatureDelta>.From(margin, Line.Of(
            "margin of the surface above the " + name, "ΔT = t_s − t_d", margin, "definition",
            Line.In("t_s", "surface temperature", surface),
            Line.In("t_d", name, point.Temperature)));
    }

    private const string WaterFormula =
        "ln p = −5.8002206e3/T + 1.3914993 − 4.8640239e-2 T + 4.1764768e-5 T² − 1.4452093e-8 T³ + 6.5459673 ln T, over water";

    private const string IceFormula =
        "ln p = −5.6745359e3/T + 6.3925247 − 9.677843e-3 T + 6.2215701e-7 T² + 2.0747825e-9 T³ − 9.484024e-13 T⁴ + 4.1635019 ln T, over ice";

    // The last double below the triple point: the warmest ice.
    private static readonly double BelowTriplePoint = double.BitDecrement(TriplePointKelvin);

    private static double HylandWexler(double t) => Math.Exp(t < TriplePointKelvin
        ? -5.6745359e3 / t + 6.3925247 + t * (-9.677843e-3 + t * (6.2215701e-7 + t * (2.0747825e-9 - t * 9.484024e-13))) + 4.1635019 * Math.Log(t)
        : -5.8002206e3 / t + 1.3914993 + t * (-4.8640239e-2 + t * (4.1764768e-5 - t * 1.4452093e-8)) + 6.5459673 * Math.Log(t));

    private static double MagnusOverWater(Temperature air)
    {
        var t = air.DegreesCelsius;
        return Pressure.FromHectopascals(6.112 * Math.Exp(17.62 * t / (243.12 + t))).Pascals;
    }

    // The two formulas differ by some ppm where they meet; a pressure in that gap belongs to the triple point.
    private static double Invert(double pascals, double low, double high) =>
        HylandWexler(low) >= pascals ? low : Bracket.FirstAfter(t => HylandWexler(t) < pascals, low, high);

    // −100 °C is 173.14999999999998 K to a double: the ends of the range belong to it.
    private static Refusal? OutsideHylandWexler(Said input, Temperature found, double lowest) =>
        Gate.Require(found.Kelvins >= lowest - 1e-9 && found.Kelvins <= HighestKelvin + 1e-9, input, Measure.Of(found),
            lowest == LowestKelvin ? "−100 to 200 °C" : "−45 to 200 °C",
            lowest == LowestKelvin ? "the Hyland-Wexler formulas hold there only" : "the saturation pressure over supercooled water is known down to −45 °C only");
}
