using System.Globalization;
using FoamRules.Model;

namespace FoamRules.Rules.Engine;

/// <summary>Instants as they stand on the site's clock.</summary>
public static class SiteClock
{
    /// <summary>The time at which a plan is judged, on the site's clock.</summary>
    public static string Show(Plan plan) => plan.JudgedAt is { } at ? Show(at, plan.TimeZone) : "an unknown time";

    /// <summary>The day on which a plan is judged, on the site's calendar; by the instant's own offset where the time zone is not known.</summary>
    public static DateOnly? DayOf(Plan plan) => plan.JudgedAt is not { } at ? null : DateOnly.FromDateTime(
        plan.TimeZone is { } zone ? TimeZoneInfo.ConvertTime(at, TimeZoneInfo.FindSystemTimeZoneById(zone)).DateTime : at.DateTime);

    /// <summary>An instant on the site's clock; in UTC where the time zone is not known, and it says so.</summary>
    public static string Show(DateTimeOffset at, string? timeZone)
    {
        var local = timeZone is null ? at.ToUniversalTime() : TimeZoneInfo.ConvertTime(at, TimeZoneInfo.FindSystemTimeZoneById(timeZone));
        return local.ToString("ddd d MMM yyyy HH:mm", CultureInfo.InvariantCulture) + (timeZone is null ? " UTC" : "");
    }
}
