namespace FoamRules.Pages.Site;

/// <summary>Where a page that somebody was sent to goes back to: never off this site.</summary>
internal static class OwnPath
{
    /// <summary>The path, where it is one of this site.</summary>
    /// <param name="path">The path as it was sent.</param>
    /// <param name="otherwise">Where to go where it is not.</param>
    public static string Of(string? path, string otherwise) =>
        path is ['/', not ('/' or '\\'), ..] && !path.Contains('\\', StringComparison.Ordinal) && !path.Any(char.IsControl) ? path : otherwise;
}
