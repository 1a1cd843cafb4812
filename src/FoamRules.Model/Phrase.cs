using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace FoamRules.Model;

/// <summary>
/// Words that a judge puts into a sentence, named by the key under which the rule sets have them in each language. A judge knows no
/// language; who writes the report does.
/// </summary>
/// <param name="Key">A key of <c>texts.yaml</c> or of the requirement's own <c>says</c>; of a list, the word between its parts, or a comma or a semicolon.</param>
public sealed partial record Phrase(string Key)
{
    /// <summary>Values for the placeholders of the words.</summary>
    public ImmutableDictionary<string, Measure> Words { get; init; } = ImmutableDictionary<string, Measure>.Empty;

    /// <summary>The parts of a list; empty where it is none.</summary>
    public ImmutableArray<Measure> Parts { get; init; } = [];

    /// <summary>The plain English words, for programs and where no language has the key.</summary>
    public required string English { get; init; }

    /// <summary>The key of English words of a kind: <c>word-the-cavity</c> for the word <c>the cavity</c>.</summary>
    /// <param name="kind">The kind, such as <c>word</c>.</param>
    /// <param name="english">The words.</param>
    public static string KeyOf(string kind, string english) => $"{kind}-{Other().Replace(english.ToLowerInvariant(), "-").Trim('-')}";

    [GeneratedRegex("[^a-z0-9]+")]
    private static partial Regex Other();
}
