using System.Text.RegularExpressions;

namespace FoamRules.Model;

/// <summary>How a language sets its marks.</summary>
public static partial class Typography
{
    /// <summary>
    /// A text as the language sets it. French has a space before a colon, a semicolon, a question mark and an exclamation mark and within
    /// its quotation marks; it is one at which no line breaks, which whoever translates need not type.
    /// </summary>
    /// <param name="tag">The language, a tag by BCP 47.</param>
    /// <param name="text">The text.</param>
    public static string In(string tag, string text) =>
        tag.Split('-')[0].Equals("fr", StringComparison.OrdinalIgnoreCase) ? Spaces().Replace(text, "\u00a0") : text;

    [GeneratedRegex("(?<=«) | (?=[:;?!»])")]
    private static partial Regex Spaces();
}
