using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets.Declared;
using FoamRules.Text;

namespace FoamRules.RuleSets;

/// <summary>Reads what a rule set says of one requirement.</summary>
internal static class RequirementReader
{
    public static RequirementEntry Read(MapEntry entry, string layer, IReadOnlyDictionary<string, Source> sources, Problems problems)
    {
        var id = entry.Name;
        var reader = new EntryReader(entry.Value, id, problems);
        var result = new RequirementEntry
        {
            Id = id,
            Must = reader.Text("must"),
            NotMet = ReadSeverities(reader.Child("not-met"), $"{id}.not-met", problems),
            Missing = ReadSeverities(reader.Child("missing"), $"{id}.missing", problems),
            Release = reader.Texts("release") is { } roles ? [.. roles.Select(role => role.Text)] : null,
            ImminentSetBy = reader.Text("imminent-set-by"),
            Sources = ReadSources(reader, id, sources, problems),
            Limits = LimitReader.Read(reader.Children("limits"), $"{id}.limits", layer, sources, problems),
            LimitsOf = [.. (reader.Texts("limits-of") ?? []).Select(other => other.Text)],
            Tiers = ReadTiers(reader, id, layer, sources, problems),
            Says = reader.TextMap("says", "not-met"),
            NotApplicable = reader.TextMap("not-applicable"),
            Remedies = reader.TextMap("remedy"),
            Caution = reader.Text("caution"),
            Example = reader.Text("example"),
            RelaxedBy = reader.Text("relaxed-by"),
            Declared = DeclaredReader.Read(reader, problems),
            Place = problems.Place(entry.Value, id) with { Line = entry.Line, Column = entry.Column },
        };
        _ = reader.Text("note");
        reader.Done();
        return result;
    }

    private static ImmutableArray<Source> ReadSources(EntryReader reader, string path, IReadOnlyDictionary<string, Source> sources, Problems problems)
    {
        var found = ImmutableArray.CreateBuilder<Source>();
        foreach (var (id, node) in reader.Texts("sources") ?? [])
        {
            if (sources.TryGetValue(id, out var source))
            {
                found.Add(source);
                continue;
            }

            var nearest = sources.Keys.MinBy(known => Closeness.Distance(known, id));
            problems.Add(node, $"{path}.sources", $"the unknown source `{id}`", "a source of sources.yaml", nearest is null ? "add the source" : $"did you mean {nearest}?");
        }

        return found.ToImmutable();
    }

    private static ImmutableSortedDictionary<string, Tier> ReadTiers(EntryReader reader, string path, string layer, IReadOnlyDictionary<string, Source> sources, Problems problems)
    {
        var tiers = ImmutableSortedDictionary.CreateBuilder<string, Tier>(StringComparer.Ordinal);
        foreach (var entry in reader.Children("tiers"))
        {
            var here = $"{path}.tiers.{entry.Name}";
            var one = new EntryReader(entry.Value, here, problems);
            var severities = ReadSeverities(one.Child("not-met"), $"{here}.not-met", problems);
            var missing = ReadSeverities(one.Child("missing"), $"{here}.missing", problems);
            if (severities is null && missing is null)
            {
                problems.Add(entry.Value, here, "no severities", "not-met or missing: severities by stage", "give the tier's severities");
            }

            tiers[entry.Name] = new Tier(severities ?? Severities.None, missing, ReadSources(one, here, sources, problems), [layer]);
            _ = one.Text("note");
            one.Done();
        }

        return tiers.ToImmutable();
    }

    private static Severities? ReadSeverities(DataNode? node, string path, Problems problems)
    {
        if (node is null)
        {
            return null;
        }

        var reader = new EntryReader(node, path, problems);
        var severities = new Severities(One("quote"), One("plan"), One("pre-start"), One("close-out"));
        reader.Done();
        return severities;

        Severity? One(string stage)
        {
            var text = reader.Text(stage);
            switch (text)
            {
                case null:
                    return null;
                case "stop":
                    return Severity.StopWork;
                case "hold":
                    return Severity.HoldPoint;
                case "caution":
                    return Severity.Caution;
                case "reminder":
                    return Severity.Reminder;
                default:
                    problems.Add(reader.Child(stage)!, $"{path}.{stage}", $"`{text}`", "stop, hold, caution or reminder", "use one of these, or leave the stage out");
                    return null;
            }
        }
    }
}
