using System.Collections.Immutable;
using System.Text.RegularExpressions;
using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Judging;

/// <summary>
/// Words that judges put into sentences, so that each language can say them: a word is said under the key <c>word-</c> and the English
/// word, a phrase under a key of its own. Names that the plan gives are no words: they stand as they are.
/// </summary>
public static class Spoken
{
    private const string Number = @"[−-]?[0-9][0-9.,]*( (?!(and|or|to|more|days)\b)[^ ]+( K\))?)?";

    private static readonly (Regex Form, string Key)[] Ranges =
    [
        (Form("(?<low>N) to below (?<high>N)"), "range-to-below"),
        (Form("(?<low>N) to (?<high>N)"), "range"),
        (Form("(?:above|more than) (?<low>N) and below (?<high>N)"), "range-above-below"),
        (Form("(?:above|more than) (?<low>N) and at most (?<high>N)"), "range-above-most"),
        (Form("(?:above|more than) (?<low>N)"), "range-above"),
        (Form("(?<low>N) or more"), "range-or-more"),
        (Form("at least (?<low>N)"), "range-at-least"),
        (Form("at most (?<high>N)"), "range-at-most"),
    ];

    /// <summary>A word, such as <c>the cavity</c>, under the key <c>word-the-cavity</c>.</summary>
    public static Measure Word(string english) => Of(KeyOf(english), english);

    /// <summary>The key of a word.</summary>
    public static string KeyOf(string english) => Phrase.KeyOf("word", english);

    /// <summary>A name of the contract in plain words: <c>ClosedCellPour</c> is <c>closed cell pour</c>.</summary>
    public static Measure Of<T>(T name)
        where T : struct, Enum => Word(EnumWords.Of(name));

    /// <summary>Names of the contract in plain words, joined by commas.</summary>
    public static Measure Of<T>(IEnumerable<T> names)
        where T : struct, Enum => List(names.Select(name => Of(name)));

    /// <summary>What a limit asks: its value, or the words that it allows.</summary>
    public static Measure Of(Limit limit) => limit.Words.IsEmpty ? limit.Value : List(limit.Words.Select(word => Word(word)));

    /// <summary>A range as calculations write it, such as <c>0.1 mm to 1 m</c> or <c>above 0 and below 10 m</c>: numbers in a form that each language has; another has a key of its own.</summary>
    public static Measure Range(string english)
    {
        foreach (var (form, key) in Ranges)
        {
            if (form.Match(english) is { Success: true } match)
            {
                return Of(key, english, [.. match.Groups.Cast<Group>().Skip(1).Select(group => (group.Name, Measure.OfText(group.Value)))]);
            }
        }

        return Word(english);
    }

    /// <summary>A name that the plan gives, or a number in the plan's list where it gives none.</summary>
    /// <param name="name">The name; null where it gives none.</param>
    /// <param name="thing">What it is, in English; with a number under the key <c>numbered-</c> and that word.</param>
    /// <param name="number">Its number in the list, from 1.</param>
    public static Measure NameOr(string? name, string thing, int number) =>
        name is { Length: > 0 } ? Measure.OfText(name) : Of($"numbered-{thing}", $"{thing} {number}", ("number", Measure.OfCount(number)));

    /// <summary>A name that the plan gives, or a word where it gives none.</summary>
    public static Measure NameOr(string? name, string word) => name is { Length: > 0 } ? Measure.OfText(name) : Word(word);

    /// <summary>A phrase with values in it.</summary>
    /// <param name="key">Its key in <c>texts.yaml</c>.</param>
    /// <param name="english">The same in English, the values filled in.</param>
    /// <param name="words">The values of its placeholders; <c>us</c> and <c>si</c> are shown in these units whatever the report's are.</param>
    public static Measure Of(string key, string english, params ReadOnlySpan<(string Word, Measure Value)> words)
    {
        var values = ImmutableDictionary.CreateBuilder<string, Measure>();
        foreach (var (word, value) in words)
        {
            values[word] = value;
        }

        return Measure.OfPhrase(new Phrase(key) { English = english, Words = values.ToImmutable() });
    }

    private static Regex Form(string form) => new($"^{form.Replace("N", Number, StringComparison.Ordinal)}$", RegexOptions.ExplicitCapture);

    /// <summary>Parts joined by commas, or by semicolons.</summary>
    public static Measure List(IEnumerable<Measure> parts, string mark = ",") => Joined(parts, mark, $"{mark} ");

    /// <summary>Alternatives.</summary>
    public static Measure Or(IEnumerable<Measure> parts) => Joined(parts, KeyOf("or"), " or ");

    private static Measure Joined(IEnumerable<Measure> parts, string key, string english)
    {
        ImmutableArray<Measure> all = [.. parts];
        return all switch
        {
            [] => Measure.OfText(""),
            [var only] => only,
            _ => Measure.OfPhrase(new Phrase(key) { English = string.Join(english, all.Select(part => MeasureText.Show(part, DisplayUnits.Si))), Parts = all }),
        };
    }
}
