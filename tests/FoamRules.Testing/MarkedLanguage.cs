using System.Text.Json;
using System.Text.RegularExpressions;
using FoamRules.RuleSets;

namespace FoamRules.Testing;

/// <summary>
/// A language in which each text of the rule sets is the English one between marks: what stands outside the marks, in whatever is said,
/// comes from no translation. Placeholders stand outside, since what fills them has words of its own.
/// </summary>
public static partial class MarkedLanguage
{
    /// <summary>Its tag.</summary>
    public const string Tag = "qps";

    /// <summary>The mark before a text.</summary>
    public const char Open = '⟦';

    /// <summary>The mark after a text.</summary>
    public const char Close = '⟧';

    /// <summary>The rule sets that ship, with this language.</summary>
    /// <param name="reviewedBy">Who has reviewed it; empty: nobody.</param>
    public static RuleLibrary Library(string reviewedBy = "")
    {
        var sets = RuleSetFiles.Below(Repository.PathOf("rulesets")).Select(files =>
        {
            var set = RuleSetReader.Read(files).RuleSet!;
            var marked = RuleSetTexts.Of(set).Where(text => text.Key != RuleSetTexts.Title).GroupBy(text => text.Key.Split('.')[0])
                .Select(file => new RuleSetFile($"languages/{Tag}/{file.Key}.yaml", Written(file)));
            var head = new RuleSetFile($"languages/{Tag}/language.yaml", $"language: {Tag}\nreviewed-by: \"{reviewedBy}\"\ntitle: \"{Mark(set.Title)}\"\ndecimal-mark: \",\"\ndecimal-point-in: [US, MX]\n");
            return files with { Files = [.. files.Files, .. marked, head] };
        });
        return RuleLibrary.Load(sets, out var violations) ?? throw new InvalidOperationException(string.Join(Environment.NewLine, violations));
    }

    /// <summary>A text between marks, line by line and around its placeholders.</summary>
    public static string Mark(string text) => Runs().Replace(text, run => run.Value[0] != '{' && run.Value.Any(char.IsLetter) ? $"{Open}{run.Value}{Close}" : run.Value);

    /// <summary>What of a text stands outside the marks; a mark that is cut off counts to the end.</summary>
    public static string Outside(string text) => Marked().Replace(text, " ");

    private static string Written(IGrouping<string, KeyValuePair<string, string>> file) => JsonSerializer.Serialize(file.Key is "texts" or "questions"
        ? file.ToDictionary(text => text.Key[(file.Key.Length + 1)..], text => (object)Mark(text.Value))
        : file.GroupBy(text => file.Key is "hazards" or "price" ? text.Key.Split('.')[1] : string.Join('.', text.Key.Split('.').Take(2)))
            .ToDictionary(entry => entry.Key, entry => (object)entry.GroupBy(text => Rest(text.Key)[0]).ToDictionary(field => field.Key, field => field.Key is "must" or "caution" or "name" or "because" or "absent" or "what"
                ? Mark(field.Single().Value)
                : (object)field.ToDictionary(text => string.Join('.', Rest(text.Key).Skip(1)), text => Mark(text.Value)))));

    private static string[] Rest(string place) => place.Split('.')[2..];

    // Placeholders, and the runs between them on a line.
    [GeneratedRegex(@"\{[^}]*\}|[^{\n]+")]
    private static partial Regex Runs();

    [GeneratedRegex("⟦[^⟦⟧]*(⟧|$)")]
    private static partial Regex Marked();
}
