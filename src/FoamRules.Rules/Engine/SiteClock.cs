using System.Globalization;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>Instants as they stand on the site's clock.</summary>
public static class SiteClock
{
    // The step to which waits are rounded up where a person reads a clock time.
    private static readonly TimeSpan Step = TimeSpan.FromMinutes(5);

    /// <summary>The end of a wait as a person reads it: rounded up to the next five minutes, never down.</summary>
    public static DateTimeOffset After(DateTimeOffset start, Duration wait)
    {
        var end = start + TimeSpan.FromSeconds(Math.Round(wait.Seconds));
        var over = end.UtcTicks % Step.Ticks;
        return over == 0 ? end : end.AddTicks(Step.Ticks - over);
    }

    /// <summary>The day on which a plan is judged, on the site's calendar; by universal time where the time zone is not known.</summary>
    public static DateOnly? DayOf(Plan plan) => plan.JudgedAt is { } at ? DayOf(at, plan.TimeZone) : null;

    /// <summary>The day of an instant on the site's calendar; by universal time where the time zone is not known.</summary>
    public static DateOnly DayOf(DateTimeOffset at, string? timeZone) => DateOnly.FromDateTime(Local(at, timeZone).DateTime);

    /// <summary>An instant on the site's clock, for a sentence in any language; in UTC where the time zone is not known, and it says so.</summary>
    public static Measure At(DateTimeOffset at, string? timeZone)
    {
        var local = Local(at, timeZone);
        var isUtc = timeZone is null;
        return Wording.AtClock(local, isUtc, local.ToString("ddd d MMM yyyy HH:mm", CultureInfo.InvariantCulture) + (isUtc ? " UTC" : ""));
    }

    /// <summary>An instant with the site's offset; in UTC where the time zone is not known.</summary>
    public static DateTimeOffset Local(DateTimeOffset at, string? timeZone) =>
        timeZone is null ? at.ToUniversalTime() : TimeZoneInfo.ConvertTime(at, TimeZoneInfo.FindSystemTimeZoneById(timeZone));
}
