using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>The language of a report, chosen by a tag of BCP 47: the tag itself where there is a translation, else the tag without its last parts.</summary>
/// <param name="Language">The language of the words.</param>
/// <param name="Region">The country that the tag names, by ISO 3166-1; null where it names none. Numbers are written as there.</param>
/// <param name="Violations">That no rule set is translated into it.</param>
internal sealed record LanguageChoice(string Language, string? Region, ImmutableArray<Violation> Violations)
{
    public static LanguageChoice Of(string? tag, RuleLibrary library)
    {
        if (tag is not { Length: > 0 })
        {
            return new LanguageChoice(Translation.English, null, []);
        }

        var parts = tag.Split('-');
        var region = parts.Skip(1).FirstOrDefault(part => part.Length == 2 && part.All(char.IsAsciiLetter))?.ToUpperInvariant();
        for (var length = parts.Length; length > 0; length--)
        {
            var wanted = string.Join('-', parts.Take(length));
            if (library.Languages.FirstOrDefault(known => known.Equals(wanted, StringComparison.OrdinalIgnoreCase)) is { } language)
            {
                return new LanguageChoice(language, region, []);
            }
        }

        return new LanguageChoice(Translation.English, null,
            [new Violation("language", $"`{tag}`", Said.Name(string.Join(", ", library.Languages)), "name one of these, with a country where its numbers are written otherwise, such as es-MX; without it the report is in English")]);
    }
}
