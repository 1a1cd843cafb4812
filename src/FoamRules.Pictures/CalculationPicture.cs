using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Calculations;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Pictures;

/// <summary>
/// The pictures of the calculations, as SVG, for report and page. They show what a calculation found; nothing is judged
/// here, and no picture of heat clears a thickness or a wait.
/// </summary>
public static class CalculationPicture
{
    private const int Steps = 160;

    /// <summary>Temperature in the foam from the first pass on: the hottest point, the face, each pass, and the threshold of hot.</summary>
    /// <param name="plan">The passes.</param>
    /// <param name="units">The units of the axes.</param>
    /// <param name="words">The words; English where they are left out.</param>
    public static Calculated<string> PassTemperatures(PassHeatCase plan, DisplayUnits units, PictureWords? words = null)
    {
        words ??= PictureWords.English;
        var points = new List<(double Minutes, HeatReading Reading)>();
        PassHeatResult? whole = null;
        var first = plan.Passes.IsDefaultOrEmpty ? Duration.Zero : plan.Passes[0].At;
        for (var count = 1; count <= Math.Max(1, plan.Passes.IsDefault ? 1 : plan.Passes.Length); count++)
        {
            var part = PartWith(plan, count);
            var run = PassHeat.Simulate(part);
            if (!run.HasValue)
            {
                return Calculated<string>.Refuse(run.Refusal!);
            }

            whole = run.Value;
            points.AddRange(whole.Readings.Select(reading => ((part.Passes[^1].At - first + reading.After).Minutes, reading)));
        }

        var chart = new Chart(words.Say("heat", "Temperature in the foam, from the first pass on"), words.Say("heat-across", "minutes after the first pass"), Degrees(units))
            .Line(words.Say("hottest", "hottest point"), points.Select(point => (point.Minutes, In(point.Reading.Hottest, units))))
            .Line(words.Say("face", "face, as a surface thermometer reads it"), points.Select(point => (point.Minutes, In(point.Reading.Surface, units))))
            .LimitAcross(In(plan.HotAbove, units), words.Say("hot-above", "hot above {temperature}", ("temperature", words.Show(plan.HotAbove, units))));
        foreach (var (pass, number) in plan.Passes.Select((pass, index) => (pass, index + 1)).Skip(1))
        {
            chart.MomentUp((pass.At - first).Minutes, words.Say("pass", "pass {number}", ("number", number.ToString(CultureInfo.InvariantCulture))));
        }

        return Calculated<string>.From(
            chart.ToSvg(words.Say(
                "heat-told", "The hottest point stays above {temperature} for {time}; the face cools much sooner than the core. No computed heat clears a thickness or a wait.",
                ("temperature", words.Show(plan.HotAbove, units)), ("time", words.Show(whole!.LongestHot, units)))),
            []);
    }

    // The first passes alone, read until the next one is put on.
    private static PassHeatCase PartWith(PassHeatCase plan, int count)
    {
        if (plan.Passes.IsDefaultOrEmpty)
        {
            return plan;
        }

        var isLast = count == plan.Passes.Length;
        var until = isLast ? plan.Horizon : plan.Passes[count].At - plan.Passes[count - 1].At;
        // Two passes without a wait between them: a moment is enough, and the calculation wants one.
        var horizon = until > Duration.Zero ? until : Duration.FromSeconds(1);
        return plan with
        {
            Passes = plan.Passes[..count],
            Horizon = horizon,
            ReadAfter = [.. Enumerable.Range(0, Steps + 1).Select(step => horizon * step / Steps)],
        };
    }

    /// <summary>Concentration after spraying, with its limit and the times at which people come back.</summary>
    /// <param name="purge">The space and what is in its air.</param>
    /// <param name="limit">The level that must be reached.</param>
    /// <param name="moments">Times after the last spraying, with their words, such as when trades come back.</param>
    /// <param name="horizon">How long the picture runs.</param>
    /// <param name="words">The words; English where they are left out.</param>
    public static Calculated<string> Concentration(
        PurgeCase purge, MassConcentration limit, IReadOnlyList<(Duration After, string Words)> moments, Duration horizon, PictureWords? words = null)
    {
        words ??= PictureWords.English;
        var points = new List<(double X, double Y)>();
        for (var step = 0; step <= Steps; step++)
        {
            var at = horizon * step / Steps;
            var level = Purge.ConcentrationAfter(purge, at);
            if (!level.HasValue)
            {
                return Calculated<string>.Refuse(level.Refusal!);
            }

            // The scale has no zero; far below the limit the exact figure no longer matters.
            points.Add((at.Hours, Math.Max(level.Value.MilligramsPerCubicMeter, limit.MilligramsPerCubicMeter / 100)));
        }

        var chart = new Chart(
            words.Say("air", "Concentration after the last spraying"), words.Say("air-across", "hours after the last spraying"), words.Say("air-up", "mg/m³ (each step a tenth)"),
            least: limit.MilligramsPerCubicMeter / 100, tenfold: true)
            .Line(words.Say("worked-out", "worked out"), points)
            .LimitAcross(limit.MilligramsPerCubicMeter, words.Say("limit", "limit {level}", ("level", words.Show(limit, DisplayUnits.Si))));
        foreach (var (after, moment) in moments)
        {
            chart.MomentUp(after.Hours, moment);
        }

        var below = Purge.LastTimeAbove(purge, limit);
        var told = below is { HasValue: true, Value: PurgeTime.StaysBelowFrom stays }
            ? words.Say("air-clears", "The level stays below the limit from {time} on.", ("time", words.Show(stays.Time, DisplayUnits.Si)))
            : words.Say("air-never", "The level never stays below the limit.");
        return Calculated<string>.From(chart.ToSvg($"{told} {words.Say("air-no-proof", "A computed purge is no proof that people may come back.")}"), below.Steps);
    }

    /// <summary>Test shots with the fitted line and the interval of seconds for a wanted fill.</summary>
    /// <param name="shots">The shots.</param>
    /// <param name="wanted">The fill wanted.</param>
    /// <param name="settings">What the rule set asks of test shots.</param>
    /// <param name="units">The units of the axes.</param>
    /// <param name="words">The words; English where they are left out.</param>
    public static Calculated<string> TestShots(
        ImmutableArray<Calculations.TestShot> shots, IQuantity wanted, TestShotSettings settings, DisplayUnits units, PictureWords? words = null)
    {
        words ??= PictureWords.English;
        var fitted = Calculations.TestShots.TimeFor(wanted, shots, settings);
        if (!fitted.HasValue)
        {
            return Calculated<string>.Refuse(fitted.Refusal!);
        }

        var answer = fitted.Value;
        var line = answer.Calibration;
        var longest = Math.Max(answer.High.Seconds, line.LongestTested.Seconds) * 1.1;
        var fillAt = (double seconds) => Scale(line.Intercept, units) + (Scale(line.SlopePerSecond, units) * seconds);
        var chart = new Chart(words.Say("shots", "Test shots"), words.Say("shots-across", "seconds on the trigger"), FillAxis(wanted, units, words), least: 0)
            .Band(words.Say("shots-band", "seconds that the shots allow"), Band(shots, wanted, settings, units))
            .Line(words.Say("fitted", "fitted line"), [(Math.Max(0, line.Lag.Seconds), fillAt(Math.Max(0, line.Lag.Seconds))), (longest, fillAt(longest))])
            .Dots(words.Say("shots-dots", "shots"), shots.Where(shot => !shot.Overflowed).Select(shot => (shot.Time.Seconds, Scale(shot.Fill, units))))
            .LimitAcross(Scale(wanted, units), words.Say("wanted", "wanted: {fill}", ("fill", words.Show(wanted, units))));
        if (shots.Any(shot => shot.Overflowed))
        {
            chart.Dots(words.Say("overflowed", "overflowed, left out"), shots.Where(shot => shot.Overflowed).Select(shot => (shot.Time.Seconds, Scale(shot.Fill, units))), hollow: true);
        }

        var told = words.Say(
            "shots-told", "Aim for {aim}, between {low} and {high}.", ("aim", Seconds(answer.Aim, words)), ("low", Seconds(answer.Low, words)), ("high", Seconds(answer.High, words)));
        return Calculated<string>.From(chart.ToSvg(told), fitted.Steps);
    }

    // For each fill up to the wanted one and the highest tested one: from when to when it may be reached. Fills for which the
    // calculation gives no seconds are left out.
    private static IEnumerable<((double X, double Y) Low, (double X, double Y) High)> Band(ImmutableArray<Calculations.TestShot> shots, IQuantity wanted, TestShotSettings settings, DisplayUnits units)
    {
        var most = shots.Where(shot => !shot.Overflowed).Select(shot => shot.Fill).Append(wanted).MaxBy(Quantities.InBase)!;
        foreach (var step in Enumerable.Range(1, Steps))
        {
            var fill = Quantity.From((double)most.Value * step / Steps, most.Unit);
            if (Calculations.TestShots.TimeFor(fill, shots, settings) is { HasValue: true, Value: var time })
            {
                yield return ((time.Low.Seconds, Scale(fill, units)), (time.High.Seconds, Scale(fill, units)));
            }
        }
    }

    private static string Seconds(Duration time, PictureWords words) => words.Show(Duration.FromSeconds(Math.Round(time.Seconds, 1)), DisplayUnits.Si);

    private static string FillAxis(IQuantity wanted, DisplayUnits units, PictureWords words) => (wanted, units) switch
    {
        (Length, DisplayUnits.Us) => words.Say("fill-height", "fill height, {unit}", ("unit", "in")),
        (Length, _) => words.Say("fill-height", "fill height, {unit}", ("unit", "mm")),
        (_, DisplayUnits.Us) => words.Say("fill-mass", "mass, {unit}", ("unit", "lb")),
        _ => words.Say("fill-mass", "mass, {unit}", ("unit", "kg")),
    };

    private static double Scale(IQuantity quantity, DisplayUnits units) => (quantity, units) switch
    {
        (Length length, DisplayUnits.Us) => length.Inches,
        (Length length, _) => length.Millimeters,
        (Mass mass, DisplayUnits.Us) => mass.Pounds,
        (Mass mass, _) => mass.Kilograms,
        _ => Quantities.InBase(quantity),
    };

    private static string Degrees(DisplayUnits units) => units == DisplayUnits.Us ? "°F" : "°C";

    private static double In(Temperature temperature, DisplayUnits units) => units == DisplayUnits.Us ? temperature.DegreesFahrenheit : temperature.DegreesCelsius;
}
