using System.Globalization;

namespace FoamRules.Readings;

/// <summary>The words of the readings, by their keys in a rule set's texts: <c>reading-</c> and the key.</summary>
/// <param name="texts">The texts.</param>
public sealed class ReadingWords(IReadOnlyDictionary<string, string> texts)
{
    /// <summary>A text with its placeholders filled. A text that is not there shows as its key: a report is read all the same.</summary>
    /// <param name="key">The key, without <c>reading-</c>.</param>
    /// <param name="words">The placeholders with their values.</param>
    public string this[string key, params (string Word, string Value)[] words] => words.Aggregate(
        texts.TryGetValue($"reading-{key}", out var text) ? text : $"reading-{key}",
        (filled, word) => filled.Replace($"{{{word.Word}}}", word.Value, StringComparison.Ordinal));

    /// <summary>A text of one thing or of several: under the key with <c>-one</c>, or under the key with <c>{count}</c>.</summary>
    /// <param name="key">The key, without <c>reading-</c>.</param>
    /// <param name="count">How many.</param>
    public string Counted(string key, int count) => count == 1 ? this[$"{key}-one"] : this[key, ("count", Number(count))];

    /// <summary>A whole number.</summary>
    internal static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
