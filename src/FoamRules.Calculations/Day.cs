using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>What a step of the day is.</summary>
public enum DayStepKind
{
    /// <summary>A sprayed pass.</summary>
    Pass,

    /// <summary>A poured shot.</summary>
    Shot,

    /// <summary>Waiting while nothing else is done; rounded up.</summary>
    Wait,

    /// <summary>Moving, setting up, clearing away.</summary>
    Move,

    /// <summary>Trimming or cutting foam.</summary>
    Trim,

    /// <summary>Use of a solvent.</summary>
    Solvent,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>How soon and how late a step may follow an earlier one, counted from that one's end.</summary>
/// <param name="After">The earlier step.</param>
/// <param name="AtLeast">The wait, 0 or more; rounded up.</param>
/// <param name="AtMost">The longest allowed gap; rounded down; null when there is none.</param>
public sealed record DayGap(string After, Duration AtLeast, Duration? AtMost = null);

/// <summary>One thing the crew does. Steps follow one another in the order given; a crew does one at a time.</summary>
/// <param name="Id">Its name; no two alike.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Duration">How long it takes, 0 or more.</param>
/// <param name="SoilsAir">The air space it sprays, trims or uses solvent in: the purge clock there starts at its end. Null for none.</param>
/// <param name="Gaps">Gaps to earlier steps; may be empty.</param>
/// <param name="Longest">Longest allowed duration; rounded down; null when there is none.</param>
public sealed record DayStep(
    string Id, DayStepKind Kind, Duration Duration, string? SoilsAir = null, ImmutableArray<DayGap> Gaps = default, Duration? Longest = null);

/// <summary>A wait after the last spraying, trimming or solvent use in an air space: a purge, or a re-entry.</summary>
/// <param name="Air">The air space.</param>
/// <param name="For">What may happen then, such as "re-entry of trades".</param>
/// <param name="Wait">The wait, 0 or more; rounded up.</param>
public sealed record AirClearance(string Air, string For, Duration Wait);

/// <summary>The shift, the same clock times on each day.</summary>
/// <param name="TimeZone">IANA name of the site's time zone, such as "Europe/Berlin".</param>
/// <param name="Date">The first day.</param>
/// <param name="From">Start of the shift by the site's clock.</param>
/// <param name="To">Its end; not after the start means the next day.</param>
public sealed record DayShift(string TimeZone, DateOnly Date, TimeOnly From, TimeOnly To);

/// <summary>A step with its times.</summary>
/// <param name="Id">The step.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Day">Which shift, from 1.</param>
/// <param name="Start">Start, with the site's offset at that moment.</param>
/// <param name="End">End.</param>
public sealed record DayEntry(string Id, DayStepKind Kind, int Day, DateTimeOffset Start, DateTimeOffset End);

/// <summary>When an air space is cleared.</summary>
/// <param name="Air">The air space.</param>
/// <param name="For">What may happen then.</param>
/// <param name="Day">After which shift's work, from 1.</param>
/// <param name="ClockStarts">End of the last step of that shift that soiled the air.</param>
/// <param name="Cleared">When the wait is over.</param>
/// <param name="AfterShift">True when that is after the end of the shift.</param>
/// <param name="Broken">True when work of a later shift soils the air again before the wait is over: then it never was cleared.</param>
public sealed record ClearanceEntry(string Air, string For, int Day, DateTimeOffset ClockStarts, DateTimeOffset Cleared, bool AfterShift, bool Broken);

/// <summary>A longest allowed time that this order of steps does not keep.</summary>
/// <param name="Id">The step.</param>
/// <param name="After">The step it comes too long after; null when the step itself is too long.</param>
/// <param name="Allowed">What is allowed, rounded down.</param>
/// <param name="Found">What comes out.</param>
public sealed record DayMiss(string Id, string? After, Duration Allowed, Duration Found);

/// <summary>The timetable of a job.</summary>
/// <param name="Steps">The steps, in order.</param>
/// <param name="Clearances">The purges and re-entries.</param>
/// <param name="FitsOneShift">True when steps, waits and clearances all end within the first shift.</param>
/// <param name="Days">How many shifts the steps take, on days that follow one another.</param>
/// <param name="Missed">Longest allowed times that are not kept.</param>
public sealed record DayTimetable(
    ImmutableArray<DayEntry> Steps, ImmutableArray<ClearanceEntry> Clearances, bool FitsOneShift, int Days, ImmutableArray<DayMiss> Missed);

/// <summary>
/// Calculation 4.5: passes, waits, shots, moves, purge and re-entry on a clock. A step starts when the one before it has ended
/// and every gap asked for is over; a step that would not end within the shift goes to the next. Times are kept as instants,
/// so an hour of waiting is an hour on the day the clocks change too. The purge clock of an air space starts at the end of
/// the last spraying, trimming or solvent use in it: rework starts it again.
/// Range: 1 to 10,000 steps, 1 to 366 shifts. A start that the clock shows twice is taken as the later one, an end as the earlier.
/// Source: arithmetic of the calendar; time zones from the machine's IANA data.
/// </summary>
public static class Day
{
    private const string Source = "calendar arithmetic with IANA time zones";
    private const int MostSteps = 10_000, MostShifts = 366;

    /// <summary>The timetable.</summary>
    /// <param name="shift">The shift.</param>
    /// <param name="steps">The steps, in the order the crew does them.</param>
    /// <param name="clearances">The waits of the air spaces.</param>
    /// <param name="roundTo">Waits are rounded up and longest allowed times down to whole multiples of this; 0 leaves them.</param>
    public static Calculated<DayTimetable> Plan(DayShift shift, ImmutableArray<DayStep> steps, ImmutableArray<AirClearance> clearances, Duration roundTo)
    {
        if (Bad(steps, clearances, roundTo) is { } refusal)
            return Calculated<DayTimetable>.Refuse(refusal);
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(shift.TimeZone, out var zone) || !zone.HasIanaId)
            return Calculated<DayTimetable>.Refuse("time zone", Measure.OfText(shift.TimeZone), "an IANA name, such as Europe/Berlin", "the clock of the site has to be known");

        var clock = new SiteClock(shift, zone);
        var (day, now) = (1, default(DateTimeOffset));
        if (clock.Bad(day) is { } badFirst)
            return Calculated<DayTimetable>.Refuse(badFirst);
        now = clock.Start(day);

        var entries = new List<DayEntry>();
        var missed = new List<DayMiss>();
        var ends = new Dictionary<string, DateTimeOffset>(StringComparer.Ordinal);
        foreach (var step in steps)
        {
            var length = step.Kind == DayStepKind.Wait ? Rounding.Up(step.Duration, roundTo) : step.Duration;
            var gaps = step.Gaps.IsDefault ? [] : step.Gaps;
            var earliest = gaps.Select(gap => ends[gap.After] + Span(Rounding.Up(gap.AtLeast, roundTo))).DefaultIfEmpty(now).Max();
            var start = earliest > now ? earliest : now;
            while (start + Span(length) > clock.End(day))
            {
                if (Span(length) > clock.End(day) - clock.Start(day) && start <= clock.Start(day))
                    return Calculated<DayTimetable>.Refuse($"duration of {step.Id}", Measure.Of(length), "at most one shift", "a step is not broken off and taken up again");
                if (++day > MostShifts)
                    return Calculated<DayTimetable>.Refuse("shifts", Measure.OfCount(day), $"at most {MostShifts}", "no job is planned further");
                if (clock.Bad(day) is { } bad)
                    return Calculated<DayTimetable>.Refuse(bad);
                start = earliest > clock.Start(day) ? earliest : clock.Start(day);
            }

            if (step.Longest is { } longest && Rounding.Down(longest, roundTo) is var allowed && length.Seconds > allowed.Seconds + 1e-6)
                missed.Add(new DayMiss(step.Id, null, allowed, length));
            foreach (var gap in gaps)
            {
                var found = Duration.FromSeconds((start - ends[gap.After]).TotalSeconds);
                if (gap.AtMost is { } most && Rounding.Down(most, roundTo) is var within && found.Seconds > within.Seconds + 1e-6)
                    missed.Add(new DayMiss(step.Id, gap.After, within, found));
            }

            now = start + Span(length);
            ends[step.Id] = now;
            entries.Add(new DayEntry(step.Id, step.Kind, day, clock.Local(start), clock.Local(now)));
        }

        var cleared = Clear(steps, entries, clearances.IsDefault ? [] : clearances, clock, roundTo);
        var timetable = new DayTimetable([.. entries], [.. cleared], day == 1 && cleared.All(entry => !entry.AfterShift), day, [.. missed]);
        return Calculated<DayTimetable>.From(timetable,
        [
            .. entries.Select(entry => Of($"end of {entry.Id}", "start = max(end of the step before, end of each gap, start of the shift); end = start + duration", Measure.OfInstant(entry.End), Source,
                new Term("start", "start", Measure.OfInstant(entry.Start)))),
            .. cleared.Select(entry => Of($"{entry.For}, {entry.Air}", "last spraying, trimming or solvent use + wait, rounded up", Measure.OfInstant(entry.Cleared), Source,
                new Term("clock", "clock starts", Measure.OfInstant(entry.ClockStarts)))),
        ]);
    }

    private static List<ClearanceEntry> Clear(
        ImmutableArray<DayStep> steps, List<DayEntry> entries, ImmutableArray<AirClearance> clearances, SiteClock clock, Duration roundTo)
    {
        var cleared = new List<ClearanceEntry>();
        foreach (var clearance in clearances)
        {
            var soiling = entries.Where((_, i) => string.Equals(steps[i].SoilsAir, clearance.Air, StringComparison.Ordinal)).ToArray();
            foreach (var shift in soiling.GroupBy(entry => entry.Day))
            {
                var last = shift.Last().End;
                var over = last + Span(Rounding.Up(clearance.Wait, roundTo));
                var broken = soiling.Any(entry => entry.Day > shift.Key && entry.Start < over);
                cleared.Add(new ClearanceEntry(clearance.Air, clearance.For, shift.Key, last, clock.Local(over), over > clock.End(shift.Key), broken));
            }
        }

        return cleared;
    }

    private static TimeSpan Span(Duration duration) => TimeSpan.FromSeconds(duration.Seconds);

    private static Refusal? Bad(ImmutableArray<DayStep> steps, ImmutableArray<AirClearance> clearances, Duration roundTo)
    {
        if (steps.IsDefaultOrEmpty || steps.Length > MostSteps)
            return new Refusal("steps", Measure.OfCount(steps.IsDefault ? 0 : steps.Length), $"1 to {MostSteps}", "there is nothing to plan");
        var bad = Time("rounding", roundTo, TimeSpan.FromHours(1));
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var longest = TimeSpan.FromDays(MostShifts);
        foreach (var step in steps)
        {
            bad ??= Time($"duration of {step.Id}", step.Duration, longest);
            if (step.Longest is { } most)
                bad ??= Time($"longest duration of {step.Id}", most, longest);
            foreach (var gap in step.Gaps.IsDefault ? [] : step.Gaps)
            {
                bad ??= (seen.Contains(gap.After) ? null : new Refusal($"gap of {step.Id}", Measure.OfText(gap.After), "an earlier step", "it is counted from that step's end"))
                    ?? Time($"gap of {step.Id}", gap.AtLeast, longest)
                    ?? (gap.AtMost is { } late ? Time($"longest gap of {step.Id}", late, longest) : null);
            }

            if (!seen.Add(step.Id))
                bad ??= new Refusal("steps", Measure.OfText(step.Id), "each named once", "gaps refer to them by name");
        }

        foreach (var clearance in clearances.IsDefault ? [] : clearances)
            bad ??= Time($"wait of {clearance.Air}", clearance.Wait, longest);
        return bad;
    }

    private static Refusal? Time(Said name, Duration time, TimeSpan most) =>
        Gate.Between(name, time, time.Seconds, 0, most.TotalSeconds, string.Create(CultureInfo.InvariantCulture, $"0 to {most.TotalHours:0} h"), "time runs forward");

    /// <summary>The shifts as instants.</summary>
    private sealed class SiteClock(DayShift shift, TimeZoneInfo zone)
    {
        /// <summary>Refuses a shift that begins or ends in the hour that the clock skips.</summary>
        public Refusal? Bad(int day)
        {
            foreach (var time in new[] { From(day), To(day) })
                if (zone.IsInvalidTime(time))
                    return new Refusal("shift", Measure.OfText(time.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)), "a time that the site's clock shows", "the clock is put forward over it that night");
            return null;
        }

        public DateTimeOffset Start(int day) => Instant(From(day), later: true);

        public DateTimeOffset End(int day) => Instant(To(day), later: false);

        public DateTimeOffset Local(DateTimeOffset instant) => TimeZoneInfo.ConvertTime(instant, zone);

        private DateTime From(int day) => shift.Date.AddDays(day - 1).ToDateTime(shift.From);

        private DateTime To(int day) => shift.Date.AddDays(day - 1 + (shift.To > shift.From ? 0 : 1)).ToDateTime(shift.To);

        // Where the clock shows a time twice, the shorter shift is the safe one.
        private DateTimeOffset Instant(DateTime local, bool later)
        {
            if (!zone.IsAmbiguousTime(local))
                return new DateTimeOffset(local, zone.GetUtcOffset(local));
            var offsets = zone.GetAmbiguousTimeOffsets(local);
            return new DateTimeOffset(local, later ? offsets.Min() : offsets.Max());
        }
    }
}
