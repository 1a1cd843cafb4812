using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Judging;

/// <summary>How one report speaks: the words of its language, its units, and how the language writes numbers and times. No setting of the machine changes it.</summary>
public sealed class Wording
{
    private const string Time = "time-form", TimeUtc = "time-form-utc";

    /// <summary>The wording of a report.</summary>
    /// <param name="book">The rule book in the report's language.</param>
    /// <param name="units">The units of its sentences.</param>
    /// <param name="country">Where its readers are, by ISO 3166-1: Spanish writes a decimal point in the United States and a comma in Spain.</param>
    public Wording(RuleBook book, DisplayUnits units, string? country = null)
    {
        Book = book;
        Units = units;
        Style = book.Language == Translation.English
            ? NumberStyle.English
            : new NumberStyle(MarkOf(book, country), NumberStyle.WordsInUse.ToImmutableDictionary(word => word, word => Text(UnitKey(word))));
    }

    /// <summary>The texts that every report needs, whatever it says.</summary>
    public static ImmutableArray<string> Keys { get; } =
    [
        Time, TimeUtc, "time-unknown", "range", "language-not-reviewed", "language-gaps", "language-in-english",
        .. NumberStyle.WordsInUse.Select(UnitKey),
        .. Enum.GetNames<DayOfWeek>().Select(day => $"day-{day.ToLowerInvariant()}"),
        .. CultureInfo.InvariantCulture.DateTimeFormat.MonthNames.Where(name => name.Length > 0).Select(month => $"month-{month.ToLowerInvariant()}"),
    ];

    /// <summary>The rule book in the report's language.</summary>
    public RuleBook Book { get; }

    /// <summary>The units of the sentences.</summary>
    public DisplayUnits Units { get; }

    /// <summary>How numbers are written.</summary>
    public NumberStyle Style { get; }

    /// <summary>What stands between two parts of a line; French sets a space before it.</summary>
    public string Semicolon => Phrase.Semicolon(Book.Texts);

    /// <summary>A text of the rule sets with its placeholders filled.</summary>
    /// <exception cref="KeyNotFoundException">No rule set has it.</exception>
    public string Text(string key, params IEnumerable<(string Word, string Value)> words) => Filled(
        Book.Texts.GetValueOrDefault(key) ?? throw new KeyNotFoundException($"texts.yaml has no {key}"), words);

    /// <summary>A word, by its key <c>word-</c> and the English word; in English where there is none.</summary>
    public string Word(string english) => Book.Texts.GetValueOrDefault(Spoken.KeyOf(english)) ?? english;

    /// <summary>A quantity with its unit.</summary>
    public string Show(IQuantity quantity) => MeasureText.Show(quantity, Units, Style);

    /// <summary>A value as a person reads it.</summary>
    /// <param name="measure">The value.</param>
    /// <param name="spec">The requirement in whose sentence it stands; its own words come first.</param>
    public string Show(Measure measure, RequirementSpec? spec = null) => Show(measure, Units, spec);

    /// <summary>An instant on the site's clock; in UTC where the time zone is not known, and it says so.</summary>
    public string Show(DateTimeOffset at, string? timeZone) => Show(SiteClock.At(at, timeZone));

    /// <summary>Words that the engine has made.</summary>
    public string Say(Phrase phrase, RequirementSpec? spec = null)
    {
        if (!phrase.Parts.IsEmpty)
        {
            var joint = phrase.Key switch { ";" => Semicolon, "," => ", ", var word => $" {Text(word)} " };
            return string.Join(joint, phrase.Parts.Select(part => Show(part, spec)));
        }

        if (phrase.Key is Time or TimeUtc)
        {
            return OnClock(phrase.Key, phrase.Words["at"].Instant!.Value);
        }

        return (spec?.Says.GetValueOrDefault(phrase.Key) ?? Book.Texts.GetValueOrDefault(phrase.Key)) is { } words
            ? Filled(words, phrase.Words.Select(word => (word.Key, Show(word.Value, word.Key switch { "us" => DisplayUnits.Us, "si" => DisplayUnits.Si, _ => Units }, spec))))
            : Named(phrase);
    }

    // What a calculation refuses may end with a name of the plan, as in "duration of pass 1 of wall": the longest beginning that has a key counts.
    private string Named(Phrase phrase)
    {
        for (var end = phrase.English.LastIndexOf(' '); end > 0 && phrase.Key == Spoken.KeyOf(phrase.English); end = phrase.English.LastIndexOf(' ', end - 1))
        {
            if (Book.Texts.TryGetValue(Spoken.KeyOf(phrase.English[..end]), out var words))
            {
                return words + phrase.English[end..];
            }
        }

        return phrase.English;
    }

    /// <summary>The site's clock time of an instant, as words that each language can say.</summary>
    internal static Measure AtClock(DateTimeOffset local, bool isUtc, string english) => Spoken.Of(isUtc ? TimeUtc : Time, english, ("at", Measure.OfInstant(local)));

    private string Show(Measure measure, DisplayUnits units, RequirementSpec? spec) => measure.Phrase is { } phrase ? Say(phrase, spec) : MeasureText.Show(measure, units, Style);

    private string OnClock(string form, DateTimeOffset local) => Text(
        form,
        ("weekday", Text($"day-{local.DayOfWeek.ToString().ToLowerInvariant()}")),
        ("day", local.Day.ToString(CultureInfo.InvariantCulture)),
        ("month", Text($"month-{CultureInfo.InvariantCulture.DateTimeFormat.GetMonthName(local.Month).ToLowerInvariant()}")),
        ("year", local.Year.ToString(CultureInfo.InvariantCulture)),
        ("clock", local.ToString("HH:mm", CultureInfo.InvariantCulture)));

    private static string Filled(string text, IEnumerable<(string Word, string Value)> words) =>
        words.Aggregate(text, (filled, word) => filled.Replace($"{{{word.Word}}}", word.Value, StringComparison.Ordinal));

    private static string UnitKey(string word) => $"unit-{word.Replace(' ', '-')}";

    private static string MarkOf(RuleBook book, string? country) =>
        book.Translations.Any(translation => country is not null && translation.DecimalPointIn.Contains(country)) ? "."
        : book.Translations.Select(translation => translation.DecimalMark).FirstOrDefault(mark => mark is not null) ?? ".";
}
