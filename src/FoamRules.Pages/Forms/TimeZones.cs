namespace FoamRules.Pages.Forms;

/// <summary>The time zones that a form offers, by the names of the IANA database, which plans use.</summary>
internal static class TimeZones
{
    private static readonly string[] Parts = ["Africa", "America", "Antarctica", "Arctic", "Asia", "Atlantic", "Australia", "Europe", "Indian", "Pacific"];

    /// <summary>The zones of each part of the world.</summary>
    public static IReadOnlyList<IGrouping<string, string>> ByPart { get; } =
        [.. TimeZoneInfo.GetSystemTimeZones().Select(Name).Distinct().Order(StringComparer.Ordinal).GroupBy(name => name.Split('/')[0]).Where(part => Parts.Contains(part.Key))];

    // A machine that names them otherwise knows the names of the database, too.
    private static string Name(TimeZoneInfo zone) => !zone.HasIanaId && TimeZoneInfo.TryConvertWindowsIdToIanaId(zone.Id, out var name) ? name : zone.Id;
}
