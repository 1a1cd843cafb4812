using System.Collections.Immutable;
using System.Text;

namespace FoamRules.Model;

/// <summary>
/// Words that a judge puts into a sentence, named by the key under which the rule sets have them in each language. A judge knows no
/// language; who writes the report does.
/// </summary>
/// <param name="Key">A key of <c>texts.yaml</c> or of the requirement's own <c>says</c>; of a list, the word between its parts, or a comma or a semicolon.</param>
public sealed record Phrase(string Key)
{
    /// <summary>Values for the placeholders of the words.</summary>
    public ImmutableDictionary<string, Measure> Words { get; init; } = ImmutableDictionary<string, Measure>.Empty;

    /// <summary>The parts of a list; empty where it is none.</summary>
    public ImmutableArray<Measure> Parts { get; init; } = [];

    /// <summary>The plain English words, for programs and where no language has the key.</summary>
    public required string English { get; init; }

    /// <summary>What stands between two parts of a line, by the texts of a language; rule sets of before it had a key have the plain one.</summary>
    public static string Semicolon(IReadOnlyDictionary<string, string> texts) =>
        texts.TryGetValue("semicolon", out var between) ? between.Replace("{one}", "", StringComparison.Ordinal).Replace("{other}", "", StringComparison.Ordinal) : "; ";

    /// <summary>The key of English words of a kind: <c>word-the-cavity</c> for the word <c>the cavity</c>.</summary>
    /// <param name="kind">The kind, such as <c>word</c>.</param>
    /// <param name="english">The words.</param>
    public static string KeyOf(string kind, string english)
    {
        // Asked several times a judgement, so without a pattern.
        var key = new StringBuilder(kind, kind.Length + english.Length + 1);
        var gap = true;
        foreach (var letter in english)
        {
            var small = char.ToLowerInvariant(letter);
            if (!char.IsAsciiLetterLower(small) && !char.IsAsciiDigit(small))
            {
                gap = true;
                continue;
            }

            if (gap)
            {
                key.Append('-');
                gap = false;
            }

            key.Append(small);
        }

        return gap && key.Length == kind.Length ? $"{kind}-" : key.ToString();
    }
}
