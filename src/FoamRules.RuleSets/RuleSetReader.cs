using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.RuleSets;

/// <summary>A rule set as read, or everything that is wrong with it.</summary>
/// <param name="RuleSet">The rule set; null where it cannot be read.</param>
/// <param name="Violations">What is wrong, with file, line and column.</param>
public sealed record RuleSetRead(RuleSet? RuleSet, IReadOnlyList<Violation> Violations);

/// <summary>
/// Reads one folder of YAML files: <c>rule-set.yaml</c> (what it says of itself), <c>sources.yaml</c>, <c>hazards.yaml</c>,
/// <c>texts.yaml</c>, <c>parameters.yaml</c>, <c>price.yaml</c>, <c>questions.yaml</c>, one file a topic with its requirements and their
/// sources, and a folder a language below <c>languages</c>.
/// </summary>
public static class RuleSetReader
{
    private const string Sources = "sources";
    private static readonly string[] Special = ["rule-set", "sources", "hazards", "texts", "parameters", "price", "questions"];

    /// <summary>Reads a folder.</summary>
    /// <param name="folder">The folder; its name is the rule set's id.</param>
    public static RuleSetRead Read(string folder) => Read(RuleSetFiles.InFolder(folder));

    /// <summary>Reads files that are in memory, such as a draft that nobody has stored.</summary>
    /// <param name="set">The files.</param>
    /// <param name="translations">Read the translations, too; for one report in English they would only cost time.</param>
    public static RuleSetRead Read(RuleSetFiles set, bool translations = true)
    {
        var problems = new Problems();
        var id = set.Id;
        var trees = new Dictionary<string, (string File, string Text, DataNode Root)>(StringComparer.Ordinal);
        foreach (var (name, text) in set.Files.Where(file => !file.Name.Contains('/', StringComparison.Ordinal)))
        {
            var shown = $"{id}/{name}";
            var data = DataText.Read(text, shown);
            problems.AddRange(data.Violations);
            if (data.Root is not null)
            {
                trees[Path.GetFileNameWithoutExtension(name)] = (shown, text, data.Root);
            }
        }

        EntryReader? Open(string name)
        {
            if (!trees.TryGetValue(name, out var tree))
            {
                return null;
            }

            problems.File = tree.File;
            problems.Source = tree.Text.Split('\n');
            return new EntryReader(tree.Root, name, problems);
        }

        var head = Open("rule-set");
        if (head is null)
        {
            problems.File = $"{id}/rule-set.yaml";
            problems.Add(1, 1, "", "no such file", "a file with title, version and level", "add it");
            return new RuleSetRead(null, problems.All);
        }

        var read = RuleSetHeadReader.Read(head, problems);
        var topics = trees.Keys.Except(Special).Order(StringComparer.Ordinal).ToList();
        var sources = ReadSources(topics.Append("sources").Where(trees.ContainsKey).Select(Open), id, problems);
        var parameters = Open("parameters") is { } shared
            ? LimitReader.Read(((MapNode)shared.Node).Entries, "parameters", id, sources, problems)
            : ImmutableSortedDictionary<string, Limit>.Empty;
        var hazards = ReadHazards(Open("hazards"), problems);
        var texts = ReadTexts(Open("texts"), problems);
        var prices = PriceReader.Read(Open("price"), problems);
        var questions = ReadTexts(Open("questions"), problems);
        var requirements = ImmutableSortedDictionary.CreateBuilder<string, RequirementEntry>(StringComparer.Ordinal);
        foreach (var topic in topics)
        {
            var reader = Open(topic)!;
            foreach (var entry in ((MapNode)reader.Node).Entries.Where(entry => entry.Name != Sources))
            {
                if (!entry.Name.StartsWith(topic + ".", StringComparison.Ordinal))
                {
                    problems.Add(entry.Line, entry.Column, entry.Name, "a requirement of another topic", $"ids that begin with {topic}.", "move it to the file of its topic");
                }

                requirements[entry.Name] = RequirementReader.Read(entry, id, sources, problems);
            }
        }

        var ruleSet = new RuleSet
        {
            Id = id,
            Head = read,
            Sources = sources,
            Parameters = parameters,
            Hazards = hazards,
            Texts = texts,
            Prices = prices,
            Questions = questions,
            Requirements = requirements.ToImmutable(),
            Files = set,
        };
        if (translations)
        {
            ruleSet = ruleSet with { Translations = TranslationReader.Read(set, ruleSet, problems) };
        }

        return new RuleSetRead(problems.All.Count == 0 ? ruleSet : null, problems.All);
    }

    // Sources stand in sources.yaml where several topics use them, and under `sources` in a topic's own file.
    private static ImmutableSortedDictionary<string, Source> ReadSources(IEnumerable<EntryReader?> files, string layer, Problems problems)
    {
        var sources = ImmutableSortedDictionary.CreateBuilder<string, Source>(StringComparer.Ordinal);
        foreach (var file in files.OfType<EntryReader>())
        {
            var isOwnFile = file.Path == Sources;
            foreach (var entry in isOwnFile ? ((MapNode)file.Node).Entries : file.Children(Sources))
            {
                var one = new EntryReader(entry.Value, $"{Sources}.{entry.Name}", problems);
                var citation = one.RequiredText("cite");
                var status = one.RequiredText("status");
                _ = one.Text("note");
                one.Done();
                if (!Enum.TryParse<SourceStatus>(status.Replace("-", "", StringComparison.Ordinal), ignoreCase: true, out var known))
                {
                    problems.Add(entry.Value, $"{Sources}.{entry.Name}.status", $"`{status}`", "read, secondary, from-memory, common-practice or arithmetic", "say how the source is known");
                }

                if (!sources.TryAdd(entry.Name, new Source(entry.Name, citation, known, layer)))
                {
                    problems.Add(entry.Value, $"{Sources}.{entry.Name}", "a second source under this id", "one", "use the one that is there, or rename this one");
                }
            }
        }

        return sources.ToImmutable();
    }

    private static ImmutableSortedDictionary<string, HazardEntry> ReadHazards(EntryReader? reader, Problems problems)
    {
        var hazards = ImmutableSortedDictionary.CreateBuilder<string, HazardEntry>(StringComparer.Ordinal);
        foreach (var entry in reader is null ? [] : ((MapNode)reader.Node).Entries)
        {
            var one = new EntryReader(entry.Value, entry.Name, problems);
            hazards[entry.Name] = new HazardEntry(entry.Name, one.RequiredText("name"), one.RequiredText("because"), one.RequiredText("absent"));
            one.Done();
        }

        return hazards.ToImmutable();
    }

    private static ImmutableSortedDictionary<string, string> ReadTexts(EntryReader? reader, Problems problems)
    {
        var texts = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (var entry in reader is null ? [] : ((MapNode)reader.Node).Entries)
        {
            if (entry.Value is ScalarNode { Text: { } text })
            {
                texts[entry.Name] = text.Trim();
            }
            else
            {
                problems.Add(entry.Value, entry.Name, "no text", "a text", "write one text here");
            }
        }

        return texts.ToImmutable();
    }
}
