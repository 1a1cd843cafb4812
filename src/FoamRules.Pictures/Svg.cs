using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace FoamRules.Pictures;

/// <summary>What all pictures share: a title and a description for those who cannot see them, and a size that fits its place.</summary>
internal static partial class Svg
{
    /// <summary>Puts a title and a description into an SVG and lets it scale.</summary>
    public static string Describe(string svg, string title, string description, double width, double height)
    {
        // Several pictures stand on one page: names inside them must not meet.
        var own = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(svg)))[..8];
        svg = ClipName().Replace(svg, $"clip-{own}-");
        var open = OpeningTag().Match(svg);
        var tag = string.Create(CultureInfo.InvariantCulture,
            $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:0.##} {height:0.##}\" role=\"img\"><title>{WebUtility.HtmlEncode(title)}</title><desc>{WebUtility.HtmlEncode(description)}</desc>");
        return tag + Inline().Replace(svg[(open.Index + open.Length)..], style => Attributes(style.Groups[1].Value));
    }

    // A page that allows no style in its markup draws the picture all the same.
    private static string Attributes(string style) => string.Concat(style.Split(';', StringSplitOptions.RemoveEmptyEntries)
        .Select(declaration => declaration.Split(':', 2)).Select(parts => $" {parts[0].Trim()}=\"{parts[1].Trim()}\""));

    [GeneratedRegex("clipPath(?=[0-9])")]
    private static partial Regex ClipName();

    [GeneratedRegex(" style=\"([^\"]*)\"")]
    private static partial Regex Inline();

    [GeneratedRegex("<svg[^>]*>")]
    private static partial Regex OpeningTag();
}
