using System.Collections.Immutable;

namespace FoamRules.Model;

/// <summary>How a language writes numbers with their units. No setting of the machine changes it.</summary>
/// <param name="DecimalMark">The mark between whole and parts.</param>
/// <param name="UnitWords">The units that are words and not symbols, by their English words, such as <c>per hour</c>.</param>
public sealed record NumberStyle(string DecimalMark, ImmutableDictionary<string, string> UnitWords)
{
    /// <summary>A decimal point, and English words.</summary>
    public static NumberStyle English { get; } = new(".", ImmutableDictionary<string, string>.Empty);

    /// <summary>The English words that stand in the place of a unit symbol.</summary>
    public static ImmutableArray<string> WordsInUse { get; } = ["days", "per hour", "foot-candles"];

    /// <summary>A number with its unit, as English writes it, in this style.</summary>
    public string Of(string english)
    {
        var space = english.IndexOf(' ', StringComparison.Ordinal);
        var (number, unit) = space < 0 ? (english, "") : (english[..space], english[(space + 1)..]);
        var shown = number.Replace(".", DecimalMark, StringComparison.Ordinal);
        return space < 0 ? shown : $"{shown} {UnitWords.GetValueOrDefault(unit, unit)}";
    }
}
