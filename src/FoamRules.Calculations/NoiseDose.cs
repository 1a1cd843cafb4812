using System.Collections.Immutable;
using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>A row of a table of permissible exposures.</summary>
/// <param name="Level">A-weighted level.</param>
/// <param name="Hours">Time allowed at it in a day.</param>
public sealed record NoiseTableRow(Level Level, Duration Hours);

/// <summary>A rule for noise, all of it data of the rule set.</summary>
/// <param name="CriterionLevel">Level allowed for the criterion time, such as 90 dBA or 85 dBA.</param>
/// <param name="CriterionTime">That time, such as 8 h.</param>
/// <param name="ExchangeRate">Decibels that halve the time, such as 5 dB or 3 dB (3.0103 dB for equal energy exactly).</param>
/// <param name="Threshold">Level below which nothing counts; null counts everything.</param>
/// <param name="Table">Published times that go before the formula; may be empty.</param>
/// <param name="Ceiling">Level above which no time is allowed; null when there is none.</param>
/// <param name="PeakCeiling">Highest allowed peak (C-weighted); null when there is none.</param>
/// <param name="Source">Where the rule is from and how it is known.</param>
public sealed record NoiseRule(
    Level CriterionLevel, Duration CriterionTime, Level ExchangeRate, Level? Threshold, ImmutableArray<NoiseTableRow> Table, Level? Ceiling, Level? PeakCeiling, string Source);

/// <summary>A part of the day at one level.</summary>
/// <param name="Task">What is done.</param>
/// <param name="Level">A-weighted level at the ear, −10 to 160 dB.</param>
/// <param name="Time">How long in the day.</param>
/// <param name="Peak">Peak level (C-weighted) where it is known.</param>
public sealed record NoiseExposure(string Task, Level Level, Duration Time, Level? Peak = null);

/// <summary>The dose of a day.</summary>
/// <param name="Dose">Sum of time over allowed time; 100 % is what the rule allows. Null where a level is above the ceiling: no time is allowed there.</param>
/// <param name="EquivalentLevel">The steady level over the criterion time with the same dose; null without a dose or when nothing counts.</param>
/// <param name="AboveCeiling">Tasks louder than the ceiling.</param>
/// <param name="PeaksAbove">Tasks whose peak is above the highest allowed one.</param>
public sealed record NoiseDoseResult(Ratio? Dose, Level? EquivalentLevel, ImmutableArray<string> AboveCeiling, ImmutableArray<string> PeaksAbove);

/// <summary>
/// Calculation 4.13: D = Σ C/T. T is the table's at a level of the table; elsewhere the formula T = T_c/2^((L − L_c)/q), but no
/// longer than the table allows at the next lower level. Equivalent level L_c + q log₂ D.
/// Range: −10 to 160 dB, at most 24 h in all. Source: 29 CFR 1926.52 (read) for the sum and table D-2; the formula and other
/// exchange rates from memory (high); the numbers come with the rule.
/// </summary>
public static class NoiseDose
{
    private const string Source = "29 CFR 1926.52(d), sum of C/T (read); formula from memory (high)";

    /// <summary>The time allowed at a level.</summary>
    /// <param name="level">A-weighted level.</param>
    /// <param name="rule">The rule.</param>
    public static Calculated<Duration> AllowedTime(Level level, NoiseRule rule)
    {
        var refusal = Bad(rule) ?? BadLevel("level", level)
            ?? (rule.Ceiling is { } ceiling && level.Decibels > ceiling.Decibels
                ? new Refusal("level", Measure.Of(level), string.Create(System.Globalization.CultureInfo.InvariantCulture, $"at most {ceiling.Decibels:0.#} dBA"), "no time is allowed above it")
                : null);
        if (refusal is not null)
            return Calculated<Duration>.Refuse(refusal);
        var allowed = Allowed(level, rule);
        return Calculated<Duration>.From(allowed, AllowedStep(level, allowed, rule));
    }

    /// <summary>The dose of a day.</summary>
    /// <param name="exposures">The parts of the day; may be empty, together at most 24 h.</param>
    /// <param name="rule">The rule.</param>
    public static Calculated<NoiseDoseResult> Dose(ImmutableArray<NoiseExposure> exposures, NoiseRule rule)
    {
        var list = exposures.IsDefault ? [] : exposures;
        var refusal = Bad(rule);
        foreach (var exposure in list)
        {
            refusal ??= BadLevel($"level of {exposure.Task}", exposure.Level)
                ?? Gate.AtLeast($"time of {exposure.Task}", exposure.Time, exposure.Time.Hours, 0, "0 h or more", "time runs forward")
                ?? (exposure.Peak is { } peak ? Gate.Between($"peak of {exposure.Task}", peak, peak.Decibels, -10, 200, "−10 to 200 dB", "no tool is louder") : null);
        }

        var whole = Duration.FromHours(list.Sum(exposure => exposure.Time.Hours));
        refusal ??= Gate.Between("times together", whole, whole.Hours, 0, 24 + 1e-9, "at most 24 h", "it is the dose of a day");
        if (refusal is not null)
            return Calculated<NoiseDoseResult>.Refuse(refusal);

        var counted = list.Where(exposure => !(rule.Threshold is { } threshold && exposure.Level.Decibels < threshold.Decibels) && exposure.Time.Hours > 0).ToArray();
        ImmutableArray<string> above = [.. counted.Where(exposure => rule.Ceiling is { } ceiling && exposure.Level.Decibels > ceiling.Decibels).Select(exposure => exposure.Task)];
        ImmutableArray<string> peaks = [.. list.Where(exposure => exposure.Peak is { } peak && rule.PeakCeiling is { } most && peak.Decibels > most.Decibels).Select(exposure => exposure.Task)];
        if (!above.IsEmpty)
        {
            return Calculated<NoiseDoseResult>.From(
                new NoiseDoseResult(null, null, above, peaks),
                Of("no dose", "a level above the ceiling", Measure.OfText(above[0]), rule.Source, In("ceiling", "highest level at which any time is allowed", rule.Ceiling!.Value)));
        }

        var dose = counted.Sum(exposure => exposure.Time.Hours / Allowed(exposure.Level, rule).Hours);
        var equivalent = dose > 0 ? Level.FromDecibels(rule.CriterionLevel.Decibels + rule.ExchangeRate.Decibels * Math.Log2(dose)) : (Level?)null;
        var ratio = Ratio.FromDecimalFractions(dose);
        return Calculated<NoiseDoseResult>.From(new NoiseDoseResult(ratio, equivalent, above, peaks),
        [
            .. counted.Select(exposure => AllowedStep(exposure.Level, Allowed(exposure.Level, rule), rule)),
            new WorkedStep("noise dose", "D = Σ C/T", [.. counted.Select(exposure => In("C", exposure.Task, exposure.Time))], Measure.Of(ratio), Source),
            .. equivalent is { } steady ? [Of("equivalent level", "L = L_c + q log₂ D", steady, Source, In("L_c", "criterion level", rule.CriterionLevel), In("q", "exchange rate", rule.ExchangeRate))] : Array.Empty<WorkedStep>(),
        ]);
    }

    private static Duration Allowed(Level level, NoiseRule rule)
    {
        var formula = Duration.FromHours(rule.CriterionTime.Hours / Math.Pow(2, (level.Decibels - rule.CriterionLevel.Decibels) / rule.ExchangeRate.Decibels));
        var below = (rule.Table.IsDefault ? [] : rule.Table).Where(row => row.Level.Decibels <= level.Decibels).OrderByDescending(row => row.Level.Decibels).FirstOrDefault();
        if (below is null)
            return formula;
        return below.Level.Decibels == level.Decibels || below.Hours < formula ? below.Hours : formula;
    }

    private static WorkedStep AllowedStep(Level level, Duration allowed, NoiseRule rule) => Of(
        "allowed time", "table at its levels, else T = T_c/2^((L − L_c)/q), no longer than at the next lower level of the table", allowed, rule.Source,
        In("L", "level", level), In("L_c", "criterion level", rule.CriterionLevel), In("T_c", "criterion time", rule.CriterionTime), In("q", "exchange rate", rule.ExchangeRate));

    private static Refusal? BadLevel(Said name, Level level) => Gate.Between(name, level, level.Decibels, -10, 160, "−10 to 160 dB", "no work is quieter or louder");

    private static Refusal? Bad(NoiseRule rule)
    {
        var bad = BadLevel("criterion level", rule.CriterionLevel)
            ?? Gate.Inside("criterion time", rule.CriterionTime, rule.CriterionTime.Hours, 0, 24 + 1e-9, "above 0 and at most 24 h", "it is a part of a day")
            ?? Gate.Between("exchange rate", rule.ExchangeRate, rule.ExchangeRate.Decibels, 1, 10, "1 to 10 dB", "rules use 3 to 5 dB");
        foreach (var row in rule.Table.IsDefault ? [] : rule.Table)
            bad ??= BadLevel("level of the table", row.Level) ?? Gate.Above("time of the table", row.Hours, row.Hours.Hours, 0, "above 0 h", "a table of allowed times");
        return bad;
    }
}
