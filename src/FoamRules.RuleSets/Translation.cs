using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>The words of one rule set in another language than English. Limits, severities and ids have no translation.</summary>
public sealed record Translation
{
    /// <summary>The language in which rule sets are written.</summary>
    public const string English = "en";

    /// <summary>The folder of a rule set that has one folder a language.</summary>
    internal const string Folder = "languages";

    /// <summary>The language's tag by BCP 47, such as <c>es</c>.</summary>
    public required string Language { get; init; }

    /// <summary>Who of the trade has reviewed it as a speaker of the language; empty where nobody has.</summary>
    public required string ReviewedBy { get; init; }

    /// <summary>The mark between the whole and the parts of a number; null: as a lower layer says.</summary>
    public string? DecimalMark { get; init; }

    /// <summary>The countries whose speakers write a decimal point all the same, by ISO 3166-1.</summary>
    public ImmutableArray<string> DecimalPointIn { get; init; } = [];

    /// <summary>The words by where they stand, as <see cref="RuleSetTexts.Of"/> names it.</summary>
    public required ImmutableDictionary<string, string> Words { get; init; }

    /// <summary>What the rule set says and this language does not; it stands in English.</summary>
    public required ImmutableArray<Violation> Gaps { get; init; }
}
