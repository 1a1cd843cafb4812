using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Pictures;

/// <summary>The words inside a picture, in the language of the report that it belongs to.</summary>
/// <param name="style">How the language writes numbers.</param>
/// <param name="find">A text by its key; null where the language does not have it.</param>
public sealed class PictureWords(NumberStyle style, Func<string, string?> find)
{
    /// <summary>The words of a picture that belongs to no report.</summary>
    public static PictureWords English { get; } = new(NumberStyle.English, _ => null);

    /// <summary>A text under its key with <c>picture-</c> before it; in English where there is none.</summary>
    /// <param name="key">The key, without <c>picture-</c>.</param>
    /// <param name="english">The same in English.</param>
    /// <param name="values">The values of its placeholders.</param>
    internal string Say(string key, string english, params ReadOnlySpan<(string Word, string Value)> values)
    {
        var said = find($"picture-{key}") ?? english;
        foreach (var (word, value) in values)
        {
            said = said.Replace($"{{{word}}}", value, StringComparison.Ordinal);
        }

        return said;
    }

    /// <summary>A quantity with its unit.</summary>
    internal string Show(IQuantity quantity, DisplayUnits units) => MeasureText.Show(quantity, units, style);
}
