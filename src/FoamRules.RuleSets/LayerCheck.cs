using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>Checks that a layer only tightens the layers below it, or says by what authority it relaxes them.</summary>
internal static class LayerCheck
{
    public static IReadOnlyList<Violation> Check(RuleSet set, IReadOnlyDictionary<string, RuleSet> all)
    {
        var problems = new Problems { File = $"{set.Id}/rule-set.yaml" };
        if (set.Above is null)
        {
            CheckWhole(set, problems);
            CheckOthers(set, [], problems);
            return problems.All;
        }

        if (!all.TryGetValue(set.Above, out var below))
        {
            problems.Add(1, 1, "above", $"the unknown rule set `{set.Above}`", string.Join(", ", all.Keys), "name a rule set that is there");
            return problems.All;
        }

        if (below.Level >= set.Level)
        {
            problems.Add(1, 1, "above", $"{set.Above}, which does not lie below this level", "a rule set of a lower level", "check the level");
        }

        var lowerSets = new List<RuleSet> { below };
        while (lowerSets[^1].Above is { } next && all.TryGetValue(next, out var lower) && lowerSets.Count < all.Count)
        {
            lowerSets.Add(lower);
        }

        var book = RuleBook.Build(lowerSets);
        foreach (var entry in set.Requirements.Values)
        {
            var known = book.Requirements.GetValueOrDefault(entry.Id);
            if (known is null)
            {
                CheckWhole(entry, problems);
            }
            else
            {
                CheckLimits(entry.Limits, known.Limits, problems);
                CheckSeverities(entry, known, problems);
            }
        }

        CheckLimits(set.Parameters, book.Parameters, problems);
        CheckOthers(set, book.Requirements.Keys, problems);
        return problems.All;
    }

    private static void CheckWhole(RuleSet set, Problems problems)
    {
        foreach (var entry in set.Requirements.Values)
        {
            CheckWhole(entry, problems);
        }
    }

    private static void CheckWhole(RequirementEntry entry, Problems problems)
    {
        if (entry.Must is null || entry.NotMet is null || entry.Missing is null)
        {
            problems.Add(entry.Place, "a requirement without must, not-met or missing", "all three in the layer that brings a requirement in", "give them");
        }

        if (entry.Sources.IsEmpty && entry.Limits.IsEmpty)
        {
            problems.Add(entry.Place, "a requirement without a source", "sources, or limits with a source each", "name the source, or say that it is common practice");
        }

        if (entry.Release is null)
        {
            problems.Add(entry.Place, "a requirement without release", "the roles that may release a hold", "give the roles");
        }
    }

    private static void CheckOthers(RuleSet set, IEnumerable<string> below, Problems problems)
    {
        var known = set.Requirements.Keys.Concat(below).ToList();
        foreach (var entry in set.Requirements.Values)
        {
            foreach (var other in entry.LimitsOf.Where(other => !known.Any(id => other == id || other.StartsWith(id + ".", StringComparison.Ordinal))))
            {
                problems.Add(entry.Place, $"limits-of {other}, which is no requirement", "ids of requirements, or groups of their limits", "name a requirement that is there");
            }
        }
    }

    private static void CheckLimits(ImmutableSortedDictionary<string, Limit> upper, ImmutableSortedDictionary<string, Limit> lower, Problems problems)
    {
        foreach (var (name, limit) in upper)
        {
            if (!lower.TryGetValue(name, out var below))
            {
                continue;
            }

            if (!limit.IsComparableWith(below))
            {
                problems.Add(limit.Place!, "another kind of value than the layer below gives", $"a value like that of {below.Layer}", "use the same quantity and direction");
            }
            else if (limit.RelaxedBy is null && !limit.IsAtLeastAsTightAs(below))
            {
                problems.Add(limit.Place!, $"a looser limit than {below.Layer} sets", "a limit as tight or tighter", "tighten it, or say `relaxes: true` with authority and source");
            }
        }
    }

    private static void CheckSeverities(RequirementEntry entry, RequirementSpec below, Problems problems)
    {
        if (entry.RelaxedBy is null && ((entry.NotMet is { } notMet && IsLower(notMet, below.NotMet)) || (entry.Missing is { } missing && IsLower(missing, below.Missing))))
        {
            problems.Add(entry.Place, "a lower severity than the layers below set", "severities as high or higher", "raise them, or say `relaxed-by` with the authority");
        }
    }

    private static bool IsLower(Severities upper, Severities lower) =>
        Enum.GetValues<Stage>().Any(stage => upper.At(stage) is { } severity && severity < (lower.At(stage) ?? 0));
}
