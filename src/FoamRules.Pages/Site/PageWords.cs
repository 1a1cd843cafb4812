using System.Collections.Frozen;
using System.Collections.Immutable;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.Pages.Site;

/// <summary>
/// The words of the pages in one language. They stand beside the pages and not in a rule set: a button that is renamed must not change
/// the digest of what plans are judged by.
/// </summary>
public sealed class PageWords
{
    /// <summary>The language that is always there.</summary>
    public const string English = "en";

    private static readonly Lazy<FrozenDictionary<string, PageWords>> All = new(() => Resources.In("words").GroupBy(file => file.Split('.')[0])
        .Select(files => new PageWords(files.Key, files.SelectMany(Read).ToFrozenDictionary(StringComparer.Ordinal))).ToFrozenDictionary(words => words.Language, StringComparer.OrdinalIgnoreCase));

    private PageWords(string language, FrozenDictionary<string, string> texts) => (Language, Texts) = (language, texts);

    /// <summary>The language, a tag by BCP 47.</summary>
    public string Language { get; }

    /// <summary>The texts by key, with placeholders in braces.</summary>
    public IReadOnlyDictionary<string, string> Texts { get; }

    /// <summary>The languages that there are, in order.</summary>
    public static ImmutableArray<string> Languages => [.. All.Value.Keys.Order(StringComparer.Ordinal)];

    /// <summary>The words for a tag: of the tag itself, of the tag without its last parts, or English.</summary>
    /// <param name="tag">The tag.</param>
    public static PageWords In(string tag) => Find(tag) ?? All.Value[English];

    /// <summary>The words for a tag; null where the pages do not speak it.</summary>
    /// <param name="tag">The tag.</param>
    public static PageWords? Find(string tag)
    {
        for (var wanted = tag; wanted.Length > 0; wanted = wanted[..Math.Max(0, wanted.LastIndexOf('-'))])
        {
            if (All.Value.TryGetValue(wanted, out var words))
            {
                return words;
            }
        }

        return null;
    }

    /// <summary>A text with its placeholders filled.</summary>
    /// <param name="key">The key.</param>
    /// <param name="words">The placeholders with their values.</param>
    public string this[string key, params (string Word, string Value)[] words] => words.Aggregate(
        Texts.TryGetValue(key, out var text) ? text : key, (filled, word) => filled.Replace($"{{{word.Word}}}", word.Value, StringComparison.Ordinal));

    /// <summary>What stands between a name and what is said of it; French sets a space before it.</summary>
    public string Colon => this["colon"];

    /// <summary>What is wrong, in the language of the words.</summary>
    /// <param name="violations">What is wrong; what a page has said itself is in its language already.</param>
    public IReadOnlyList<Violation> Of(IReadOnlyList<Violation> violations) => ViolationWords.In(violations, Language);

    /// <summary>What the record says, in the language of the words.</summary>
    /// <param name="said">What it says.</param>
    public string Of(Said said) => said.In(ViolationWords.Of(Language));

    // A language has a file for each part of the site; no key stands in two.
    private static IEnumerable<KeyValuePair<string, string>> Read(string file)
    {
        var read = DataText.Read(Resources.Text("words", file), file);
        return ((MapNode)read.Root!).Entries.Select(entry => KeyValuePair.Create(entry.Name, Typography.In(file.Split('.')[0], ((ScalarNode)entry.Value).Text!)));
    }
}
