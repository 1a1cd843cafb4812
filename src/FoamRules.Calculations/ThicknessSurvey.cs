using System.Collections.Immutable;
using FoamRules.Model;
using MathNet.Numerics.Distributions;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>Which number of a survey decides whether the thickness is accepted.</summary>
public enum ThicknessTest
{
    /// <summary>The mean of the readings.</summary>
    Mean,

    /// <summary>The thinnest reading.</summary>
    Minimum,

    /// <summary>The one-sided lower confidence bound of the mean.</summary>
    LowerBoundOfMean,
}

/// <summary>What the rule set asks of a survey.</summary>
/// <param name="Test">Which number decides.</param>
/// <param name="Confidence">One-sided confidence of the lower bound, such as 95 %.</param>
/// <param name="Precision">How close below the mean its lower bound should lie; above 0.</param>
/// <param name="LeastReadings">Fewest readings of any area.</param>
/// <param name="AreaPerReading">Area that one reading stands for; above 0.</param>
public sealed record ThicknessSettings(ThicknessTest Test, Ratio Confidence, Length Precision, int LeastReadings, Area AreaPerReading);

/// <summary>What the readings say.</summary>
/// <param name="Readings">How many there are.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Minimum">The thinnest.</param>
/// <param name="Maximum">The thickest.</param>
/// <param name="StandardDeviation">Sample standard deviation.</param>
/// <param name="LowerBoundOfMean">One-sided lower confidence bound of the mean.</param>
/// <param name="ReadingsForArea">Readings that the area asks for.</param>
/// <param name="ReadingsForPrecision">Readings that would bring the bound as close to the mean as wanted, at this spread; null above 10,000.</param>
/// <param name="EnoughForArea">Whether there are as many as the area asks for.</param>
/// <param name="Test">Which number decides.</param>
/// <param name="TestedValue">That number.</param>
public sealed record ThicknessResult(
    int Readings, Length Mean, Length Minimum, Length Maximum, Length StandardDeviation, Length LowerBoundOfMean,
    int ReadingsForArea, int? ReadingsForPrecision, bool EnoughForArea, ThicknessTest Test, Length TestedValue);

/// <summary>
/// Calculation 4.15: depth readings of finished foam. Mean x̄ = Σx/n, s² = Σ(x − x̄)²/(n − 1), lower bound of the mean
/// x̄ − t s/√n with the one-sided Student's t for n − 1 degrees of freedom; the fewest readings with t s/√n within the
/// precision; readings for an area A/a, rounded up. Range: 2 readings or more, each 0 to 10 m.
/// Source: standard statistics (from memory, certain); checked with the NIST StRD univariate sets.
/// </summary>
public static class ThicknessSurvey
{
    private const string Source = "standard statistics (from memory, certain)";
    private const int MostReadings = 10_000;

    /// <summary>What the readings say.</summary>
    /// <param name="readings">The readings, in any units of length.</param>
    /// <param name="area">The area they were taken on, above 0.</param>
    /// <param name="settings">What the rule set asks.</param>
    public static Calculated<ThicknessResult> Summarize(ImmutableArray<Length> readings, Area area, ThicknessSettings settings)
    {
        if (Bad(readings, area, settings) is { } refusal)
            return Calculated<ThicknessResult>.Refuse(refusal);

        // Worked in the unit of the first reading, so that readings in one unit are not converted at all.
        var unit = readings[0].Unit;
        var x = readings.Select(reading => reading.As(unit)).ToArray();
        var n = x.Length;
        var shift = x[0];
        var mean = shift + x.Sum(value => value - shift) / n;
        var spread = Math.Sqrt(x.Sum(value => (value - mean) * (value - mean)) / (n - 1));
        var confidence = settings.Confidence.DecimalFractions;
        var t = StudentT.InvCDF(0, 1, n - 1, confidence);
        Length Of(double value) => new(value, unit);

        var bound = Of(mean - t * spread / Math.Sqrt(n));
        var forArea = Math.Max(settings.LeastReadings, (int)Math.Ceiling(area.SquareMeters / settings.AreaPerReading.SquareMeters - 1e-9));
        var tested = settings.Test switch
        {
            ThicknessTest.Minimum => Of(x.Min()),
            ThicknessTest.LowerBoundOfMean => bound,
            _ => Of(mean),
        };
        var result = new ThicknessResult(
            n, Of(mean), Of(x.Min()), Of(x.Max()), Of(spread), bound, forArea, ForPrecision(spread, settings.Precision.As(unit), confidence), n >= forArea, settings.Test, tested);
        return Calculated<ThicknessResult>.From(result,
            Line.Of("mean", "x̄ = Σx/n", result.Mean, Source, In("n", "readings", n), In("min", "thinnest", result.Minimum), In("max", "thickest", result.Maximum)),
            Line.Of("standard deviation", "s = √(Σ(x − x̄)²/(n − 1))", result.StandardDeviation, Source),
            Line.Of("lower bound of the mean", "x̄ − t s/√n", bound, Source, In("t", "one-sided Student's t", t), In("confidence", "one-sided", settings.Confidence)),
            Line.Of("readings for the area", "A/a, rounded up, not fewer than the least", Measure.OfCount(forArea), "common practice, no source", In("A", "area", area), In("a", "area of a reading", settings.AreaPerReading), In("least", "fewest of any area", settings.LeastReadings)),
            Line.Of("acceptance test", settings.Test switch { ThicknessTest.Minimum => "thinnest reading", ThicknessTest.LowerBoundOfMean => "lower bound of the mean", _ => "mean of the readings" }, tested, "rule set"));
    }

    private static int? ForPrecision(double spread, double precision, double confidence)
    {
        bool Enough(int n) => StudentT.InvCDF(0, 1, n - 1, confidence) * spread / Math.Sqrt(n) <= precision;
        if (!Enough(MostReadings))
            return null;
        var (low, high) = (1, MostReadings);
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (Enough(middle))
                high = middle;
            else
                low = middle;
        }

        return high;
    }

    private static Refusal? Bad(ImmutableArray<Length> readings, Area area, ThicknessSettings settings)
    {
        var bad = Gate.Count("readings", readings.IsDefault ? 0 : readings.Length, 2, "2 or more", "one reading has no spread")
            ?? Gate.Above("area", area, area.SquareMeters, 0, "above 0 m²", "foam covers an area")
            ?? Gate.Between("confidence", settings.Confidence, settings.Confidence.DecimalFractions, 0.5, 0.999999, "50 % to below 100 %", "a lower bound lies below the mean")
            ?? Gate.Above("precision", settings.Precision, settings.Precision.Meters, 0, "above 0 mm", "no number of readings is exact")
            ?? Gate.Above("area of a reading", settings.AreaPerReading, settings.AreaPerReading.SquareMeters, 0, "above 0 m²", "it divides the area");
        foreach (var reading in readings.IsDefault ? [] : readings)
            bad ??= Gate.Between("reading", reading, reading.Meters, 0, 10, "0 to 10 m", "a depth of foam");
        return bad;
    }
}
