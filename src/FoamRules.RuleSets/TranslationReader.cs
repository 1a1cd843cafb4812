using System.Collections.Immutable;
using System.Text.RegularExpressions;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.RuleSets;

/// <summary>
/// Reads the folders <c>languages/es</c>, <c>languages/fr</c> … of a rule set: the same files as the rule set's, with the words only. What a
/// translation has and the rule set has not, and a placeholder that differs, is an error; what it lacks is a gap and stands in English.
/// </summary>
internal static partial class TranslationReader
{
    private const string Head = "language.yaml";
    private static readonly string[] OfTopic = [RuleSetTexts.Must, RuleSetTexts.Says, RuleSetTexts.NotApplicable, RuleSetTexts.Remedy, RuleSetTexts.Caution];
    private static readonly string[] OfHazard = ["name", "because", "absent"];
    private static readonly string[] OfPrice = [RuleSetTexts.What, RuleSetTexts.How];
    private static readonly string[] ByKey = [RuleSetTexts.Says, RuleSetTexts.NotApplicable, RuleSetTexts.Remedy, RuleSetTexts.How];

    /// <summary>Reads all languages of a rule set.</summary>
    /// <param name="files">The rule set's files.</param>
    /// <param name="set">The rule set as read in English.</param>
    /// <param name="problems">Takes in what is wrong.</param>
    public static ImmutableSortedDictionary<string, Translation> Read(RuleSetFiles files, RuleSet set, Problems problems)
    {
        var all = ImmutableSortedDictionary.CreateBuilder<string, Translation>(StringComparer.Ordinal);
        var english = RuleSetTexts.Of(set);
        foreach (var language in files.Files.Where(file => file.Name.StartsWith(Translation.Folder + "/", StringComparison.Ordinal)).GroupBy(file => file.Name.Split('/')[1], StringComparer.Ordinal))
        {
            all[language.Key] = new OneLanguage(language.Key, set, english, problems).Read([.. language]);
        }

        return all.ToImmutable();
    }

    /// <summary>The placeholders of a text, each as often as it stands there, in one order.</summary>
    internal static string Placeholders(string text) => string.Join(" ", Placeholder().Matches(text).Select(match => match.Value).Order(StringComparer.Ordinal));

    [GeneratedRegex(@"\{[^}]*\}")]
    private static partial Regex Placeholder();

    [GeneratedRegex("^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$")]
    private static partial Regex Tag();

    private sealed class OneLanguage(string language, RuleSet set, ImmutableSortedDictionary<string, string> english, Problems problems)
    {
        private readonly ImmutableDictionary<string, string>.Builder _words = ImmutableDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        private readonly Dictionary<string, Violation> _places = new(StringComparer.Ordinal);

        public Translation Read(IReadOnlyList<RuleSetFile> files)
        {
            var folder = $"{set.Id}/{Translation.Folder}/{language}";
            var (reviewedBy, mark, pointIn) = ("", (string?)null, ImmutableArray<string>.Empty);
            problems.File = $"{folder}/{Head}";
            if (!Tag().IsMatch(language) || language == Translation.English)
            {
                problems.Add(1, 1, "language", $"the folder `{language}`", "a tag of BCP 47 such as es or fr-CA; English stands in the rule set itself", "name the folder after the language");
            }

            if (!files.Any(file => file.Name.EndsWith($"/{Head}", StringComparison.Ordinal)))
            {
                problems.Add(1, 1, "", "no such file", "a file with language and reviewed-by", "add it");
            }

            foreach (var file in files)
            {
                problems.File = $"{set.Id}/{file.Name}";
                problems.Source = file.Text.Split('\n');
                var data = DataText.Read(file.Text, problems.File);
                problems.AddRange(data.Violations);
                if (data.Root is null)
                {
                    continue;
                }

                var name = Path.GetFileNameWithoutExtension(file.Name);
                var reader = new EntryReader(data.Root, name, problems);
                if (file.Name.EndsWith($"/{Head}", StringComparison.Ordinal))
                {
                    (reviewedBy, mark, pointIn) = ReadHead(reader);
                }
                else
                {
                    ReadWords(name, (MapNode)reader.Node);
                }
            }

            var gaps = english.Where(text => !_words.ContainsKey(text.Key)).Select(text => GapAt(folder, text.Key, text.Value));
            return new Translation { Language = language, ReviewedBy = reviewedBy, DecimalMark = mark, DecimalPointIn = pointIn, Words = _words.ToImmutable(), Gaps = [.. gaps] };
        }

        private (string ReviewedBy, string? Mark, ImmutableArray<string> PointIn) ReadHead(EntryReader reader)
        {
            if (reader.RequiredText("language") is var said && said.Length > 0 && said != language)
            {
                problems.Add(reader.Child("language")!, "language", $"`{said}`", language, "name the language of the folder");
            }

            var head = (reader.Text("reviewed-by") ?? "", reader.Text("decimal-mark"), (reader.Texts("decimal-point-in") ?? []).Select(country => country.Text).ToImmutableArray());
            if (head.Item2 is not (null or "," or "."))
            {
                problems.Add(reader.Child("decimal-mark")!, "decimal-mark", $"`{head.Item2}`", "a comma or a point, in quotes", "use one of these");
            }

            if (reader.Text("title") is { Length: > 0 } title)
            {
                _words[RuleSetTexts.Title] = Typography.In(language, title);
            }

            _ = reader.Text("note");
            reader.Done();
            return head;
        }

        private void ReadWords(string name, MapNode root)
        {
            switch (name)
            {
                case "texts" or "questions":
                    foreach (var entry in root.Entries)
                    {
                        Take(name, entry);
                    }

                    break;
                case "price":
                    foreach (var entry in root.Entries)
                    {
                        ReadEntry($"price.{entry.Name}", entry, OfPrice, set.Prices.Select(line => line.Id), "line of the price list");
                    }

                    break;
                case "hazards":
                    foreach (var entry in root.Entries)
                    {
                        ReadEntry($"hazards.{entry.Name}", entry, OfHazard, set.Hazards.Keys, "hazard");
                    }

                    break;
                default:
                    foreach (var entry in root.Entries)
                    {
                        ReadEntry(entry.Name, entry, OfTopic, set.Requirements.Keys.Where(id => id.StartsWith(name + ".", StringComparison.Ordinal)), "requirement");
                    }

                    break;
            }
        }

        private void ReadEntry(string place, MapEntry entry, string[] fields, IEnumerable<string> known, string what)
        {
            var ids = known.ToList();
            if (!ids.Contains(entry.Name))
            {
                var nearest = ids.MinBy(id => Closeness.Distance(id, entry.Name));
                problems.Add(entry.Line, entry.Column, place, $"a {what} that {set.Id} does not say in this file", string.Join(", ", ids), nearest is null ? "take it out" : $"did you mean {nearest}?");
                return;
            }

            _places[place] = problems.Place(entry.Value, place) with { Line = entry.Line, Column = entry.Column };
            var reader = new EntryReader(entry.Value, place, problems);
            foreach (var field in ((MapNode)reader.Node).Entries.Where(one => fields.Contains(one.Name)))
            {
                _ = reader.Child(field.Name);
                if (field.Value is MapNode texts && ByKey.Contains(field.Name))
                {
                    foreach (var text in texts.Entries)
                    {
                        Take($"{place}.{field.Name}", text);
                    }
                }
                else
                {
                    // One text stands under the key under which the rule set reads one text.
                    Take(place, field, field.Name == RuleSetTexts.Says ? $"{field.Name}.not-met" : field.Name);
                }
            }

            foreach (var field in fields)
            {
                _ = reader.Child(field);
            }

            reader.Done();
        }

        private void Take(string place, MapEntry entry, string? name = null)
        {
            var here = RuleSetTexts.Place(place, name ?? entry.Name);
            if (!english.TryGetValue(here, out var original))
            {
                var near = english.Keys.Where(key => key.Length > place.Length + 1 && key.StartsWith(place + ".", StringComparison.Ordinal)).ToList();
                var nearest = near.MinBy(key => Closeness.Distance(key, here));
                problems.Add(entry.Line, entry.Column, here, "a key that the rule set does not have", near.Count is > 0 and <= 20 ? string.Join(", ", near.Select(key => key[(place.Length + 1)..])) : "the keys of the rule set", nearest is null ? "take it out" : $"did you mean {nearest[(place.Length + 1)..]}?");
            }
            else if (entry.Value is not ScalarNode scalar)
            {
                problems.Add(entry.Value, here, "no text", "a text", "write one text here");
            }
            else if (scalar.Text?.Trim() is { Length: > 0 } text)
            {
                _words[here] = Typography.In(language, text);
                if (Placeholders(text) is var has && Placeholders(original) is var needs && has != needs)
                {
                    problems.Add(entry.Line, entry.Column, here, has.Length == 0 ? "no placeholder" : $"the placeholders {has}", needs.Length == 0 ? "none, as in English" : $"{needs}, as in English", "use each as often as English does, spelt alike");
                }
            }
        }

        private Violation GapAt(string folder, string place, string text)
        {
            var entry = _places.Keys.Where(one => place.StartsWith(one + ".", StringComparison.Ordinal)).MaxBy(one => one.Length);
            var found = entry is null ? new Violation(place, "", "", "", 1, 1, $"{folder}/{(place == RuleSetTexts.Title ? Head : $"{place.Split('.')[0]}.yaml")}") : _places[entry] with { Path = place };
            return found with { Found = "no translation", Allowed = $"\"{text}\" in {language}", Remedy = "translate it; until then it stands in English" };
        }
    }
}
