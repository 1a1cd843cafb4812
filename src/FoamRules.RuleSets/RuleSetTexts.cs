using System.Collections.Immutable;

namespace FoamRules.RuleSets;

/// <summary>Every text of a rule set that reaches a person and can be translated, by where it stands.</summary>
public static class RuleSetTexts
{
    internal const string Must = "must", Says = "says", NotApplicable = "not-applicable", Remedy = "remedy", Caution = "caution";
    internal const string What = "what", How = "how";

    /// <summary>The place of what people call the rule set.</summary>
    public const string Title = "rule-set.title";

    /// <summary>The texts by place, such as <c>vent.air-can-leave.says.not-met</c>, <c>texts.missing</c>, <c>hazards.fall.name</c>,
    /// <c>price.vent-holes.what</c>, <c>questions.work.spray.passes</c> or
    /// <c>rule-set.title</c>.</summary>
    public static ImmutableSortedDictionary<string, string> Of(RuleSet set)
    {
        var all = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        Add(Title, set.Title);
        foreach (var entry in set.Requirements.Values)
        {
            Add($"{entry.Id}.{Must}", entry.Must);
            Add($"{entry.Id}.{Caution}", entry.Caution);
            AddEach($"{entry.Id}.{Says}", entry.Says);
            AddEach($"{entry.Id}.{NotApplicable}", entry.NotApplicable);
            AddEach($"{entry.Id}.{Remedy}", entry.Remedies);
        }

        AddEach("texts", set.Texts);
        AddEach("questions", set.Questions);
        foreach (var line in set.Prices)
        {
            Add($"price.{line.Id}.{What}", line.What);
            AddEach($"price.{line.Id}.{How}", line.How);
        }

        foreach (var hazard in set.Hazards.Values)
        {
            Add($"hazards.{hazard.Id}.name", hazard.Name);
            Add($"hazards.{hazard.Id}.because", hazard.Because);
            Add($"hazards.{hazard.Id}.absent", hazard.Absent);
        }

        return all.ToImmutable();

        void Add(string place, string? text)
        {
            if (text is { Length: > 0 })
            {
                all[place] = text;
            }
        }

        void AddEach(string place, ImmutableSortedDictionary<string, string> texts)
        {
            foreach (var (key, text) in texts)
            {
                Add(Place(place, key), text);
            }
        }
    }

    /// <summary>A rule set with its words in another language; what that language lacks stays in English.</summary>
    public static RuleSet Spoken(RuleSet set, string language)
    {
        if (!set.Translations.TryGetValue(language, out var translation))
        {
            return set;
        }

        var words = translation.Words;
        return set with
        {
            Head = set.Head with { Title = One(Title, set.Title)! },
            Requirements = set.Requirements.ToImmutableSortedDictionary(pair => pair.Key, pair => Entry(pair.Value), StringComparer.Ordinal),
            Texts = Each("texts", set.Texts),
            Questions = Each("questions", set.Questions),
            Prices = [.. set.Prices.Select(line => line with { What = One($"price.{line.Id}.{What}", line.What)!, How = Each($"price.{line.Id}.{How}", line.How) })],
            Hazards = set.Hazards.ToImmutableSortedDictionary(
                pair => pair.Key,
                pair => new HazardEntry(pair.Key, One($"hazards.{pair.Key}.name", pair.Value.Name)!, One($"hazards.{pair.Key}.because", pair.Value.Because)!, One($"hazards.{pair.Key}.absent", pair.Value.Absent)!),
                StringComparer.Ordinal),
        };

        RequirementEntry Entry(RequirementEntry entry) => entry with
        {
            Must = One($"{entry.Id}.{Must}", entry.Must),
            Caution = One($"{entry.Id}.{Caution}", entry.Caution),
            Says = Each($"{entry.Id}.{Says}", entry.Says),
            NotApplicable = Each($"{entry.Id}.{NotApplicable}", entry.NotApplicable),
            Remedies = Each($"{entry.Id}.{Remedy}", entry.Remedies),
        };

        string? One(string place, string? english) => words.GetValueOrDefault(place) ?? english;

        ImmutableSortedDictionary<string, string> Each(string place, ImmutableSortedDictionary<string, string> texts) =>
            texts.ToImmutableSortedDictionary(pair => pair.Key, pair => One(Place(place, pair.Key), pair.Value)!, StringComparer.Ordinal);
    }

    internal static string Place(string place, string key) => key.Length == 0 ? place : $"{place}.{key}";
}
