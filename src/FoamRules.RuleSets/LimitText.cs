using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>Limits as people read them.</summary>
public static class LimitText
{
    /// <summary>A limit with its direction, such as <c>at most 2 in</c>.</summary>
    /// <param name="limit">The limit.</param>
    /// <param name="units">The unit system.</param>
    public static string Show(Limit limit, DisplayUnits units)
    {
        var word = limit.Words.Length > 0 ? "any of" : limit.Tighter switch { Tighter.Lower => "at most", Tighter.Higher => "at least", _ => "is" };
        var value = MeasureText.Show(limit.Value, units);
        // The same limit in the other system of units can round to the same words.
        var alternative = limit.Or is { } or && MeasureText.Show(or, units) is var other && other != value ? $" (or {other})" : "";
        return $"{word} {value}{alternative}";
    }
}
