using System.Collections.Immutable;
using System.CommandLine;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Readings;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;

namespace FoamRules.Cli.Commands;

/// <summary>What several commands share: where the rule sets are, and how the engine is opened.</summary>
internal static class CommonOptions
{
    /// <summary>The folder of the rule sets.</summary>
    public static Option<string> Rules() => new("--rules")
    {
        Description = "the folder with the rule sets; those that ship with the command where it is left out",
        DefaultValueFactory = _ => RulesFolder,
    };

    /// <summary>The folder of the rule sets where nobody names one.</summary>
    public static string RulesFolder => Environment.GetEnvironmentVariable("FOAMRULES_RULES") ?? Path.Combine(AppContext.BaseDirectory, "rulesets");

    /// <summary>The units in which limits are shown; SI where it is left out.</summary>
    public static Option<string> Units()
    {
        var units = new Option<string>("--units") { Description = "show numbers in US customary (us) or SI units (si)", DefaultValueFactory = _ => "si" };
        units.AcceptOnlyFromAmong("us", "si");
        return units;
    }

    /// <summary>The language in which is said what a command answers.</summary>
    public static Option<string?> Language()
    {
        var language = new Option<string?>("--language") { Description = "the language of the answer, such as es, fr or fr-CA; English where it is left out: the language of the machine is never taken" };
        language.Validators.Add(given =>
        {
            if (given.GetValueOrDefault<string?>() is { } tag && tag.Split('-')[0] != "en" && ViolationWords.Of(tag).IsEmpty)
            {
                given.AddError($"--language: found `{tag}`; allowed: en, es, fr, also with a country, such as fr-CA");
            }
        });
        return language;
    }

    /// <summary>The unit system that was named, or null.</summary>
    public static DisplayUnits? UnitsOf(string? name) => name switch { "us" => DisplayUnits.Us, "si" => DisplayUnits.Si, _ => null };

    /// <summary>Opens the engine; on failure says what is wrong and answers null.</summary>
    /// <param name="folder">The folder of the rule sets.</param>
    /// <param name="translations">Read the translations, too.</param>
    public static CheckEngine? OpenEngine(string folder, bool translations = true)
    {
        var library = RuleLibrary.Load(folder, out var violations, translations);
        if (library is null)
        {
            Console.Error.WriteLine("the rule sets cannot be used:");
            WriteViolations(violations);
            return null;
        }

        return new CheckEngine(library);
    }

    /// <summary>The words in which reports are shown: those of the general practice; on failure says what is wrong and answers null.</summary>
    /// <param name="folder">The folder of the rule sets.</param>
    /// <param name="language">The language that is asked for; where there is no translation the engine refuses it.</param>
    /// <param name="known">The general practice where it has been read already; null: it is read from the folder.</param>
    public static ReadingWords? OpenWords(string folder, string? language = null, RuleSet? known = null) => OpenTexts(folder, language, known) is { } texts ? new ReadingWords(texts) : null;

    /// <summary>The texts of the general practice; on failure says what is wrong and answers null.</summary>
    /// <param name="folder">The folder of the rule sets.</param>
    /// <param name="language">The language that is asked for.</param>
    /// <param name="known">The general practice where it has been read already; null: it is read from the folder.</param>
    public static IReadOnlyDictionary<string, string>? OpenTexts(string folder, string? language, RuleSet? known = null)
    {
        if (known is not null)
        {
            return TextsOf(known, language);
        }

        var general = Path.Combine(folder, RuleLibrary.GeneralPractice);
        if (!Directory.Exists(general))
        {
            Console.Error.WriteLine($"--rules: found no {RuleLibrary.GeneralPractice} in {folder}, from which the words of reports come");
            return null;
        }

        var read = RuleSetReader.Read(RuleSetFiles.InFolder(general), language is not null);
        if (read.RuleSet is null)
        {
            Console.Error.WriteLine("the rule sets cannot be used:");
            WriteViolations(read.Violations);
            return null;
        }

        return TextsOf(read.RuleSet, language);
    }

    private static ImmutableSortedDictionary<string, string> TextsOf(RuleSet practice, string? language)
    {
        var known = practice.Translations.Keys.Where(one => $"{language}-".StartsWith($"{one}-", StringComparison.OrdinalIgnoreCase)).MaxBy(one => one.Length);
        return known is null ? practice.Texts : RuleSetTexts.Spoken(practice, known).Texts;
    }

    /// <summary>Writes what is wrong, a line each.</summary>
    public static void WriteViolations(IEnumerable<Violation> violations)
    {
        foreach (var violation in violations)
        {
            Console.Error.WriteLine($"  {violation}");
        }
    }
}
