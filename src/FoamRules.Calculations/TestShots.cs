using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using MathNet.Numerics.Distributions;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>One timed test shot into a cavity like the ones to be filled.</summary>
/// <param name="Time">How long the gun was open.</param>
/// <param name="Fill">What it filled: a height, a volume or a mass; the same kind for every shot.</param>
/// <param name="Overflowed">True when foam came out: what the shot would have filled is then unknown (censored).</param>
/// <param name="Weight">Inverse of the shot's variance relative to the others; 1 when all are alike.</param>
public sealed record TestShot(Duration Time, IQuantity Fill, bool Overflowed = false, double Weight = 1);

/// <summary>What the rule set asks of test shots. All of it is data: the calculation has no defaults.</summary>
/// <param name="LeastShots">Fewest usable shots.</param>
/// <param name="LeastShotsWithDeclaredSpread">Fewest usable shots when the spread of the output is declared.</param>
/// <param name="Confidence">Two-sided confidence of the interval, such as 95 %.</param>
/// <param name="BeyondTested">How far outside the tested durations an answer may lie, as a share of the nearest tested one.</param>
/// <param name="WidestHalfWidth">Widest acceptable half-width of the interval, as a share of the seconds.</param>
public sealed record TestShotSettings(
    int LeastShots,
    int LeastShotsWithDeclaredSpread,
    Ratio Confidence,
    Ratio BeyondTested,
    Ratio WidestHalfWidth);

/// <summary>A shot that does not fit with the others.</summary>
/// <param name="Shot">Its place in the list that was given, from 0.</param>
/// <param name="StudentizedResidual">Its externally studentized residual: how far it lies from the line through the others, in their own spread.</param>
public sealed record ShotOutlier(int Shot, double StudentizedResidual);

/// <summary>The line through the usable shots: fill = intercept + slope × seconds.</summary>
/// <param name="Intercept">Fill at zero seconds, in the base unit of the fill; negative when the gun opens late.</param>
/// <param name="SlopePerSecond">Fill gained in each second.</param>
/// <param name="ResidualSpread">Standard deviation of the shots about the line, or null with two shots.</param>
/// <param name="Lag">Seconds before foam counts: where the line crosses zero fill; negative when fill comes faster at first.</param>
/// <param name="ShotsUsed">How many shots the line stands on.</param>
/// <param name="ShotsOverflowed">How many were left out because they overflowed.</param>
/// <param name="ShortestTested">Shortest usable shot.</param>
/// <param name="LongestTested">Longest usable shot.</param>
/// <param name="Outliers">Shots that do not fit; they are named, not dropped. Needs at least four shots.</param>
public sealed record ShotCalibration(
    IQuantity Intercept,
    IQuantity SlopePerSecond,
    IQuantity? ResidualSpread,
    Duration Lag,
    int ShotsUsed,
    int ShotsOverflowed,
    Duration ShortestTested,
    Duration LongestTested,
    ImmutableArray<ShotOutlier> Outliers);

/// <summary>How long to shoot for a wanted fill: low, aim and high, because a shot has two unsafe sides.</summary>
/// <param name="Low">Lower end of the interval (not below zero): a shorter shot most likely leaves a void.</param>
/// <param name="Aim">The seconds that the line gives.</param>
/// <param name="High">Upper end of the interval: a longer shot most likely overfills.</param>
/// <param name="HalfWidth">Half of the interval.</param>
/// <param name="HalfWidthShare">Half-width as a share of the aim.</param>
/// <param name="NarrowEnough">Whether that share is within the limit that was given.</param>
/// <param name="G">Fieller's g: 0 for a perfectly known slope, 1 where the slope could be nothing.</param>
/// <param name="SpreadIsDeclared">True when the declared spread was used, false when the shots' own was.</param>
/// <param name="MoreShotsToHalve">Further shots, spread like these, that would halve the interval; null when no number would.</param>
/// <param name="MoreShotsToNarrowEnough">Further shots that would bring the half-width within the limit; 0 when it is; null when no number would.</param>
/// <param name="Calibration">The line it stands on.</param>
public sealed record ShotTime(
    Duration Low,
    Duration Aim,
    Duration High,
    Duration HalfWidth,
    Ratio HalfWidthShare,
    bool NarrowEnough,
    double G,
    bool SpreadIsDeclared,
    int? MoreShotsToHalve,
    int? MoreShotsToNarrowEnough,
    ShotCalibration Calibration);

/// <summary>
/// Calculation 4.8: from timed test shots to the seconds for a fill. Weighted least squares y = a + b x, then inverse
/// prediction after Fieller: g = t²s²/(b²Sxx); x = x̄ + (x₀ − x̄)/(1 − g) ± (t s/b)/(1 − g) × √[(1 − g)(1 + 1/n) + (x₀ − x̄)²/Sxx].
/// Weights are scaled to a mean of 1, so the shot to come counts as an average one. Range: at least two durations, a slope above zero, g below 1, and an
/// answer not further outside the tested durations than allowed.
/// Source: calibration chapter of a standard regression text (Draper and Smith, Applied Regression Analysis; from memory, high).
/// </summary>
public static class TestShots
{
    private const string Source = "weighted least squares with inverse prediction (Fieller); Draper and Smith, Applied Regression Analysis (from memory, high)";
    private const string OutlierSource = "externally studentized (deleted) residuals with a Bonferroni limit; standard regression text (from memory, high)";
    private const int MostFurtherShotsTried = 200;

    /// <summary>
    /// The line through the shots that did not overflow, and the shots that do not fit it.
    /// Outliers: t = (y − ŷ₍₋ᵢ₎)/(s₍₋ᵢ₎ √(1/w + 1/Σw + (x − x̄)²/Sxx)), the line and spread taken without that shot, above
    /// Student's t for n − 3 degrees of freedom at (1 − confidence)/n. Ordinary residuals cannot show an outlier among so few.
    /// </summary>
    /// <param name="shots">The shots; time 0.01 s to 1 h, fill 0 or more, all of one kind.</param>
    /// <param name="settings">What the rule set asks.</param>
    public static Calculated<ShotCalibration> Calibrate(ImmutableArray<TestShot> shots, TestShotSettings settings)
    {
        var (data, refusal) = Usable(shots, settings, settings.LeastShotsWithDeclaredSpread);
        return refusal is null
            ? Calculated<ShotCalibration>.From(data!.Calibration, [data.LineStep, data.OutlierStep])
            : Calculated<ShotCalibration>.Refuse(refusal);
    }

    /// <summary>The seconds for a wanted fill, with the interval that the shots allow.</summary>
    /// <param name="wanted">The fill wanted, of the same kind as the shots' fill, above 0.</param>
    /// <param name="shots">The shots.</param>
    /// <param name="settings">What the rule set asks.</param>
    /// <param name="declaredSpread">
    /// Standard deviation of the output as a share of the wanted fill, when someone declares it; allows fewer shots. Where the
    /// shots scatter more than such a spread explains, their own scatter is used.
    /// </param>
    public static Calculated<ShotTime> TimeFor(
        IQuantity wanted, ImmutableArray<TestShot> shots, TestShotSettings settings, Ratio? declaredSpread = null)
    {
        var least = declaredSpread is null ? settings.LeastShots : settings.LeastShotsWithDeclaredSpread;
        var (data, refusal) = Usable(shots, settings, least);
        refusal ??= BadTarget(wanted, shots, "wanted fill");
        if (refusal is null && declaredSpread is { } share)
            refusal = Gate.Inside("declared spread", share, share.DecimalFractions, 0, 1, "above 0 and below 100 %", "a standard deviation as a share of the fill");
        if (refusal is null && declaredSpread is null)
            refusal = Gate.Count("usable test shots", data!.Line.Count, 3, "3 or more without a declared spread", "two shots say nothing about the spread");
        return refusal is null
            ? Inverse(InBaseUnit(wanted), wanted, data!, settings, declaredSpread)
            : Calculated<ShotTime>.Refuse(refusal);
    }

    /// <summary>
    /// The seconds for a top-up on a shot that fell short: what is missing is wanted fill less fill seen, read from the
    /// same line, so that the gun's lag counts once more. Below a top-up the foam has to be cool first (calculation 4.7).
    /// </summary>
    /// <param name="wanted">The fill wanted.</param>
    /// <param name="seen">The fill reached, 0 or more and less than wanted.</param>
    /// <param name="shots">The shots.</param>
    /// <param name="settings">What the rule set asks.</param>
    /// <param name="declaredSpread">As in <see cref="TimeFor"/>.</param>
    public static Calculated<ShotTime> TopUp(
        IQuantity wanted, IQuantity seen, ImmutableArray<TestShot> shots, TestShotSettings settings, Ratio? declaredSpread = null)
    {
        if (wanted.QuantityInfo.Name != seen.QuantityInfo.Name)
            return Calculated<ShotTime>.Refuse("fill seen", Measure.Of(seen), "the same kind of quantity as the fill wanted", "they are subtracted");
        var (most, found) = (InBaseUnit(wanted), InBaseUnit(seen));
        if (!(found >= 0 && found < most))
            return Calculated<ShotTime>.Refuse("fill seen", Measure.Of(seen), "0 or more and less than the fill wanted", "there is nothing to top up");

        var missing = FromBaseUnit(most - found, wanted);
        var time = TimeFor(missing, shots, settings, declaredSpread);
        if (!time.HasValue)
            return time;

        var step = Of("missing fill", "y_missing = y_wanted − y_seen", missing, "arithmetic", In("y_wanted", "fill wanted", wanted), In("y_seen", "fill seen", seen));
        return Calculated<ShotTime>.From(time.Value, [step, .. time.Steps]);
    }

    /// <summary>
    /// The longest first shot that cannot overfill, before anything is known of the gun in this cavity:
    /// t = share × m_min ÷ ṁ_max, the least fill mass of the smallest likely void over the highest credible output, with no
    /// lag taken off.
    /// </summary>
    /// <param name="leastFill">Minimum-fill mass of the smallest likely void, above 0.</param>
    /// <param name="highestOutput">Highest credible output of the gun, above 0.</param>
    /// <param name="share">Share of that fill to aim at, above 0 and at most 100 %.</param>
    public static Calculated<Duration> FirstShot(Mass leastFill, MassFlow highestOutput, Ratio share)
    {
        var refusal = Gate.Inside("minimum fill mass", leastFill, leastFill.Kilograms, 0, 1e6, "above 0 and below 1000 t", "there is something to fill")
            ?? Gate.Between("highest output", highestOutput, highestOutput.KilogramsPerSecond, 1e-6, 1000, "0.001 g/s to 1 t/s", "the time is mass over output")
            ?? Gate.Between("share of the fill", share, share.DecimalFractions, double.Epsilon, 1, "above 0 and at most 100 %", "more than the smallest void's fill can overfill it");
        if (refusal is not null)
            return Calculated<Duration>.Refuse(refusal);

        var time = Duration.FromSeconds(share.DecimalFractions * leastFill.Kilograms / highestOutput.KilogramsPerSecond);
        return Calculated<Duration>.From(time, Of(
            "first shot that cannot overfill", "t = f × m_min ÷ ṁ_max", time, "mass balance",
            In("f", "share of the fill", share), In("m_min", "minimum fill mass of the smallest likely void", leastFill), In("ṁ_max", "highest credible output", highestOutput)));
    }

    private static Calculated<ShotTime> Inverse(double target, IQuantity wanted, Data data, TestShotSettings settings, Ratio? declared)
    {
        var line = data.Line;
        var confidence = settings.Confidence.DecimalFractions;
        var (s, freedom, isDeclared) = Spread(line, confidence, declared?.DecimalFractions * target);
        var t = StudentT.InvCDF(0, 1, freedom, (1 + confidence) / 2);
        var aim = (target - line.Intercept) / line.Slope;
        var interval = Fieller(line, aim, t, s, line.Count);

        if (interval.G >= 1)
        {
            var more = FewestMore(k => FurtherShots(line, aim, s, freedom, confidence, k).G < 1);
            Said advice = more is { } k ? $"about {k} more shots spread like these would do" : "widen the durations";
            return Calculated<ShotTime>.Refuse("Fieller's g", Gate.Shown(interval.G), "below 1", $"the spread of the shots hides the slope, so the seconds have no interval; {advice}");
        }

        var (shortest, longest) = (data.Calibration.ShortestTested, data.Calibration.LongestTested);
        var beyond = settings.BeyondTested.DecimalFractions;
        var (from, to) = (shortest.Seconds * (1 - beyond), longest.Seconds * (1 + beyond));
        if (!(aim >= from && aim <= to))
        {
            var allowed = string.Create(CultureInfo.InvariantCulture, $"{from:0.##} to {to:0.##} s");
            return Calculated<ShotTime>.Refuse("seconds for the fill", Measure.Of(Duration.FromSeconds(aim)), allowed, "outside what the test shots cover: make a test shot near it");
        }

        var half = (interval.High - interval.Low) / 2;
        var widest = settings.WidestHalfWidth.DecimalFractions * aim;
        double HalfAfter(int k)
        {
            var after = FurtherShots(line, aim, s, freedom, confidence, k);
            return after.G < 1 ? (after.High - after.Low) / 2 : double.PositiveInfinity;
        }

        var answer = new ShotTime(
            Duration.FromSeconds(Math.Max(0, interval.Low)), Duration.FromSeconds(aim), Duration.FromSeconds(interval.High),
            Duration.FromSeconds(half), Ratio.FromDecimalFractions(half / aim), half <= widest, interval.G, isDeclared,
            FewestMore(k => HalfAfter(k) <= half / 2), half <= widest ? 0 : FewestMore(k => HalfAfter(k) <= widest), data.Calibration);

        return Calculated<ShotTime>.From(answer,
        [
            data.LineStep, data.OutlierStep,
            Of("seconds aimed at", "x₀ = (y₀ − a)/b", answer.Aim, Source, In("y₀", "fill wanted", wanted), In("a", "intercept", data.Calibration.Intercept), In("b", "slope, a second", data.Calibration.SlopePerSecond)),
            Of("Fieller's g", "g = t²s²/(b²Sxx)", Gate.Shown(interval.G), Source, In("t", "Student's t, two-sided", t), In("s", isDeclared ? "declared spread" : "spread of the shots", FromBaseUnit(s, wanted)), In("Sxx", "Σw(x − x̄)², s²", line.Sxx)),
            Of("lower end", "x̄ + (x₀ − x̄)/(1 − g) − (t s/b)/(1 − g) √[(1 − g)(1 + 1/n) + (x₀ − x̄)²/Sxx], not below 0", answer.Low, Source, In("x̄", "mean duration", Duration.FromSeconds(line.MeanX)), In("n", "shots used", line.Count)),
            Of("upper end", "the same with +", answer.High, Source),
        ]);
    }

    /// <summary>
    /// Which spread to trust: a declared one is known, so t has no degrees of freedom to pay for, unless the shots scatter
    /// more than χ² allows.
    /// </summary>
    private static (double S, double Freedom, bool Declared) Spread(WeightedLine line, double confidence, double? declared)
    {
        if (declared is not { } sigma)
            return (Math.Sqrt(line.Variance), line.DegreesOfFreedom, false);
        var shotsAgree = line.DegreesOfFreedom < 1 || line.SumOfSquares <= sigma * sigma * ChiSquared.InvCDF(line.DegreesOfFreedom, confidence);
        return shotsAgree ? (sigma, double.PositiveInfinity, true) : (Math.Sqrt(line.Variance), line.DegreesOfFreedom, false);
    }

    private static (double G, double Low, double High) Fieller(WeightedLine line, double aim, double t, double s, int count)
    {
        // Further shots are taken to be spread like the ones made, so the sum grows in proportion.
        var sxx = line.Sxx * count / line.Count;
        var ratio = t * s / line.Slope;
        var g = ratio * ratio / sxx;
        var away = aim - line.MeanX;
        var centre = line.MeanX + away / (1 - g);
        var half = ratio / (1 - g) * Math.Sqrt(Math.Max(0, (1 - g) * (1 + 1.0 / count) + away * away / sxx));
        return (g, centre - half, centre + half);
    }

    private static (double G, double Low, double High) FurtherShots(WeightedLine line, double aim, double s, double freedom, double confidence, int more) =>
        Fieller(line, aim, StudentT.InvCDF(0, 1, freedom + more, (1 + confidence) / 2), s, line.Count + more);

    private static int? FewestMore(Func<int, bool> enough)
    {
        if (!enough(MostFurtherShotsTried))
            return null;
        var (low, high) = (0, MostFurtherShotsTried);
        // The interval only narrows with more shots, so halving the bracket finds the fewest.
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (enough(middle))
                high = middle;
            else
                low = middle;
        }

        return high;
    }

    private sealed record Data(WeightedLine Line, ShotCalibration Calibration, WorkedStep LineStep, WorkedStep OutlierStep);

    private static (Data? Data, Refusal? Refusal) Usable(ImmutableArray<TestShot> shots, TestShotSettings settings, int least)
    {
        if ((BadSettings(settings) ?? BadShots(shots)) is { } bad)
            return (null, bad);

        var used = shots.Index().Where(shot => !shot.Item.Overflowed).ToArray();
        if (Gate.Count("usable test shots", used.Length, Math.Max(2, least), $"{Math.Max(2, least)} or more that did not overflow", "too few shots show neither the output nor its spread") is { } few)
            return (null, few);

        var x = Array.ConvertAll(used, shot => shot.Item.Time.Seconds);
        var y = Array.ConvertAll(used, shot => InBaseUnit(shot.Item.Fill));
        // Weights are relative; taken about their mean, so that the shot to come counts as an average one.
        var meanWeight = used.Average(shot => shot.Item.Weight);
        var w = Array.ConvertAll(used, shot => shot.Item.Weight / meanWeight);
        if (WeightedLine.Fit(x, y, w) is not { } line)
            return (null, new Refusal("durations of the shots", Measure.Of(used[0].Item.Time), "at least two different durations", "one duration gives no slope"));
        if (!(line.Slope > 0))
            return (null, new Refusal("slope of fill over time", Measure.Of(FromBaseUnit(line.Slope, used[0].Item.Fill)), "above 0", "longer shots have to fill more"));

        var kind = used[0].Item.Fill;
        var outliers = Outliers(x, y, w, settings.Confidence.DecimalFractions)
            .Select(found => new ShotOutlier(used[found.At].Index, found.T)).ToImmutableArray();
        var calibration = new ShotCalibration(
            FromBaseUnit(line.Intercept, kind), FromBaseUnit(line.Slope, kind),
            line.DegreesOfFreedom > 0 ? FromBaseUnit(Math.Sqrt(line.Variance), kind) : null,
            Duration.FromSeconds(-line.Intercept / line.Slope), line.Count, shots.Length - line.Count,
            Duration.FromSeconds(x.Min()), Duration.FromSeconds(x.Max()), outliers);

        var terms = used.Select(shot => In($"shot {shot.Index + 1}", string.Create(CultureInfo.InvariantCulture, $"fill after {shot.Item.Time.Seconds:0.##} s"), shot.Item.Fill));
        var lineStep = new WorkedStep(
            "fill gained a second", "b = Σw(x − x̄)(y − ȳ)/Σw(x − x̄)²; a = ȳ − b x̄", [.. terms], Measure.Of(calibration.SlopePerSecond), Source);
        var outlierStep = Of("shots that do not fit", "|y − ŷ₍₋ᵢ₎|/(s₍₋ᵢ₎ √(1/w + 1/Σw + (x − x̄)²/Sxx)) > t", Measure.OfCount(outliers.Length), OutlierSource, In("n", "shots used", line.Count), In("overflowed", "shots left out", calibration.ShotsOverflowed));
        return (new Data(line, calibration, lineStep, outlierStep), null);
    }

    internal static IEnumerable<(int At, double T)> Studentized(double[] x, double[] y, double[] w)
    {
        for (var i = 0; i < x.Length; i++)
        {
            double[] xs = [.. x[..i], .. x[(i + 1)..]], ys = [.. y[..i], .. y[(i + 1)..]], ws = [.. w[..i], .. w[(i + 1)..]];
            if (xs.Length < 3 || WeightedLine.Fit(xs, ys, ws) is not { } others)
                continue;
            var away = x[i] - others.MeanX;
            var residual = y[i] - others.At(x[i]);
            var scale = Math.Sqrt(others.Variance * (1 / w[i] + 1 / others.SumOfWeights + away * away / others.Sxx));
            // Shots in a perfect line have no spread; what is left of a residual then is rounding, or a plain outlier.
            var rounding = 1e-9 * Math.Abs(y[i]);
            yield return (i, Math.Abs(residual) <= rounding ? 0 : residual / scale);
        }
    }

    private static IEnumerable<(int At, double T)> Outliers(double[] x, double[] y, double[] w, double confidence)
    {
        if (x.Length < 4)
            return [];
        var limit = StudentT.InvCDF(0, 1, x.Length - 3, 1 - (1 - confidence) / (2 * x.Length));
        return Studentized(x, y, w).Where(found => Math.Abs(found.T) > limit);
    }

    private static Refusal? BadShots(ImmutableArray<TestShot> shots)
    {
        if (shots.IsDefaultOrEmpty)
            return new Refusal("test shots", Measure.OfCount(0), "at least one", "there is nothing to fit");
        foreach (var shot in shots)
        {
            var bad = Gate.Between("time of a test shot", shot.Time, shot.Time.Seconds, 0.01, 3600, "0.01 s to 1 h", "a shot takes time, and foam sets in minutes")
                ?? Gate.Between("fill of a test shot", shot.Fill, InBaseUnit(shot.Fill), 0, 1e9, "0 or more, and of this world", "a fill cannot be negative")
                ?? Gate.Number("weight of a test shot", shot.Weight, 1e-9, 1e9, "0.000000001 to 1,000,000,000", "a weight is the inverse of a variance")
                ?? (shot.Fill.QuantityInfo.Name == shots[0].Fill.QuantityInfo.Name ? null : new Refusal("fill of a test shot", Measure.Of(shot.Fill), "the same kind of quantity for every shot", "they are put on one line"));
            if (bad is not null)
                return bad;
        }

        return null;
    }

    private static Refusal? BadTarget(IQuantity wanted, ImmutableArray<TestShot> shots, Said name) =>
        wanted.QuantityInfo.Name == shots[0].Fill.QuantityInfo.Name
            ? Gate.Inside(name, wanted, InBaseUnit(wanted), 0, 1e9, "above 0, and of this world", "there is nothing to fill")
            : new Refusal(name, Measure.Of(wanted), "the same kind of quantity as the shots' fill", "it is read from their line");

    private static Refusal? BadSettings(TestShotSettings settings) =>
        Gate.Inside("confidence", settings.Confidence, settings.Confidence.DecimalFractions, 0, 1, "above 0 and below 100 %", "an interval needs a confidence")
        ?? Gate.Between("allowance beyond the tested range", settings.BeyondTested, settings.BeyondTested.DecimalFractions, 0, 1, "0 to 100 %", "it is a share of a tested duration")
        ?? Gate.Above("widest half-width", settings.WidestHalfWidth, settings.WidestHalfWidth.DecimalFractions, 0, "above 0 %", "it is a share of the seconds");

    // Mass has no SI mapping in UnitsNet (its SI unit carries a prefix), so the library's own base unit is used throughout.
    private static double InBaseUnit(IQuantity quantity) => quantity.As(quantity.QuantityInfo.BaseUnitInfo.Value);

    private static IQuantity FromBaseUnit(double value, IQuantity kind) => Quantities.From(value, kind.QuantityInfo.BaseUnitInfo.Value);
}
