using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;

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

    /// <summary>What stands between a name and what is said of it; French sets a space before it.</summary>
    public string Colon => this["colon", ("name", ""), ("what", "")];

    /// <summary>What stands between two parts of a line; French sets a space before it, too.</summary>
    public string Semicolon => Phrase.Semicolon(texts);

    /// <summary>A text of one thing or of several: under the key with <c>-one</c>, or under the key with <c>{count}</c>.</summary>
    /// <param name="key">The key, without <c>reading-</c>.</param>
    /// <param name="count">How many.</param>
    public string Counted(string key, int count) => count == 1 ? this[$"{key}-one"] : this[key, ("count", Number(count))];

    /// <summary>What English words of a kind are called: under the key of the kind and the words. What has no key stays as it is, such as a role that a company has named.</summary>
    /// <param name="kind">The kind: <c>role</c>, <c>step</c>, <c>word</c>.</param>
    /// <param name="english">The words.</param>
    public string Named(string kind, string english) => texts.GetValueOrDefault(Phrase.KeyOf(kind, english)) ?? english;

    /// <summary>What a worked step is called. Its name may end with a number or with a name that the plan gives, as in <c>start of pass 2</c>: the longest beginning that has a key counts.</summary>
    public string Step(string english) => Beginning("step", english);

    /// <summary>A symbol of a formula. Most are letters; a word such as <c>walk</c> or <c>shot 2</c> has a key.</summary>
    public string Symbol(string english) => Beginning("symbol", english);

    private string Beginning(string kind, string english)
    {
        for (var end = english.Length; end > 0; end = english.LastIndexOf(' ', end - 1))
        {
            if (texts.TryGetValue(Phrase.KeyOf(kind, english[..end]), out var words))
            {
                return words + english[end..];
            }
        }

        return english;
    }

    /// <summary>A formula. Most are the same in every language; what is said in words has a key.</summary>
    public string Formula(string english) => Named("formula", english);

    /// <summary>Values that are words, such as <c>goggles, full-facepiece</c>, each under its key. A name or a number has none and stays.</summary>
    public string Words(string english) => string.Join(", ", english.Split(", ").Select(word => Named("word", word)));

    /// <summary>A subject.</summary>
    public string Of(Subject subject) => subject.Kind is SubjectKind.Work ? subject.Id
        : subject is { Kind: SubjectKind.Person, Id: ReportNames.UnknownCrew } && texts.TryGetValue("subject-crew", out var crew) ? crew
        : texts.TryGetValue($"subject-{subject.Kind.ToString().ToLowerInvariant()}", out var text) ? text.Replace("{name}", subject.Id, StringComparison.Ordinal) : ReportNames.Of(subject);

    /// <summary>A stage.</summary>
    public string Of(Stage stage) => Named("stage", ReportNames.Of(stage));

    /// <summary>A severity.</summary>
    public string Of(Severity severity) => Named("severity", ReportNames.Of(severity));

    /// <summary>How a source is known.</summary>
    public string Of(SourceStatus status) => Named("source", ReportNames.Of(status));

    /// <summary>How numbers are written in a report in the language of the words.</summary>
    public NumberStyle Style(Report report) => NumberStyle.English with
    {
        DecimalMark = report.DecimalMark,
        UnitWords = NumberStyle.WordsInUse.Where(word => texts.ContainsKey(Phrase.KeyOf("unit", word))).ToImmutableDictionary(word => word, word => texts[Phrase.KeyOf("unit", word)]),
    };

    /// <summary>A whole number.</summary>
    internal static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
