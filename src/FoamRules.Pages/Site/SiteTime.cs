using System.Globalization;
using FoamRules.Rules.Engine;

namespace FoamRules.Pages.Site;

/// <summary>Instants on pages: on the site's clock, year first, which no country reads otherwise.</summary>
public static class SiteTime
{
    /// <summary>An instant; the zone in which it is told must stand beside it.</summary>
    /// <param name="at">The instant.</param>
    /// <param name="timeZone">The site's time zone; null: it is not known, and UTC stands.</param>
    public static string Show(DateTimeOffset at, string? timeZone) => SiteClock.Local(at, timeZone).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>The zone in which instants are told.</summary>
    /// <param name="timeZone">The site's time zone; null: it is not known.</param>
    public static string Zone(string? timeZone) => timeZone ?? "UTC";
}
