using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>Checks that a layer only tightens the layers below it, or says by what authority it relaxes them.</summary>
internal static class LayerCheck
{
    /// <summary>What is wrong with a layer.</summary>
    /// <param name="set">The layer.</param>
    /// <param name="all">All rule sets.</param>
    /// <param name="bookOf">The book of some of them, by their ids.</param>
    public static IReadOnlyList<Violation> Check(RuleSet set, IReadOnlyDictionary<string, RuleSet> all, Func<IEnumerable<string>, RuleBook> bookOf)
    {
        var problems = new Problems();
        if (!CheckStanding(set, all, problems))
        {
            return problems.All;
        }

        var closure = Layering.Closure(set.Id, all);
        var book = bookOf(closure);
        foreach (var entry in set.Requirements.Values)
        {
            var known = book.Requirements.GetValueOrDefault(entry.Id);
            if (known is null)
            {
                CheckWhole(entry, problems);
            }
            else
            {
                CheckLimits(set, entry.Limits, known.Limits, all, problems);
                CheckSeverities(entry, known, problems);
            }

            if (entry.RelaxedBy is not null && entry.Sources.IsEmpty)
            {
                problems.Add(entry.Place, "severities relaxed without a source", "sources: where the authority says so", "name the source, or take `relaxed-by` out");
            }
        }

        CheckLimits(set, set.Parameters, book.Parameters, all, problems);
        CheckOthers(set, book.Requirements.Keys, problems);
        CheckBesides(set, closure, all, problems);
        return problems.All;
    }

    // What it stands on is there, lies lower, and counts.
    private static bool CheckStanding(RuleSet set, IReadOnlyDictionary<string, RuleSet> all, Problems problems)
    {
        var head = set.Head;
        foreach (var (field, id) in (head.Above is { } above ? new[] { ("above", above) } : []).Concat(head.Adopts.Select(id => ("adopts", id))))
        {
            var place = head.PlaceOf(field);
            if (!all.TryGetValue(id, out var below))
            {
                problems.Add(place, $"the unknown rule set `{id}`", string.Join(", ", all.Keys.Where(other => other != set.Id)), "name a rule set that is there");
            }
            else if (id == set.Id || Layering.Closure(id, all).Contains(set.Id))
            {
                problems.Add(place, $"{id}, which stands on this rule set itself", "a rule set that does not stand on this one", "take one of the two out");
            }
            else if (field == "above" ? below.Level >= set.Level : below.Level > set.Level)
            {
                problems.Add(place, $"{id}, which does not lie below this level", field == "above" ? "a rule set of a lower level" : "a rule set of this level or a lower one", "check the level");
            }
            else if (below.Head.Status == RuleSetStatus.Withdrawn && head.Status != RuleSetStatus.Withdrawn)
            {
                problems.Add(place, $"{id}, which is withdrawn", "a rule set in force", "stand on the one that took its place");
            }
            else if (below.Head.Status == RuleSetStatus.Draft && head.Status == RuleSetStatus.InForce)
            {
                problems.Add(place, $"{id}, which is a draft", "a rule set in force", "put that one in force first, or make this one a draft");
            }
            else if (below.Head.Countries is { IsEmpty: false } countries && head.Countries.FirstOrDefault(country => !countries.Contains(country)) is { } foreign)
            {
                problems.Add(place, $"{id}, which does not hold in {foreign}", $"a rule set that holds in {foreign}", "check the jurisdiction");
            }
        }

        if (head.EditionOf is { } document && all.ContainsKey(document))
        {
            problems.Add(head.PlaceOf("edition-of"), $"`{document}`, which is the id of a rule set", "the name of a document, such as us-ibc", "name the document apart from its editions");
        }

        return problems.All.Count == 0;
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

    private static void CheckLimits(
        RuleSet set, ImmutableSortedDictionary<string, Limit> upper, ImmutableSortedDictionary<string, Limit> lower, IReadOnlyDictionary<string, RuleSet> all, Problems problems)
    {
        foreach (var (name, limit) in upper)
        {
            if (!lower.TryGetValue(name, out var below))
            {
                CheckNew(set, limit, lower, all, problems);
            }
            else if (!limit.IsComparableWith(below))
            {
                problems.Add(limit.Place!, "another kind of value than the layer below gives", $"a value like that of {below.Layer}", "use the same quantity and direction");
            }
            else if (limit.RelaxedBy is null && !limit.IsAtLeastAsTightAs(below))
            {
                problems.Add(limit.Place!, $"a looser limit than {below.Layer} sets", "a limit as tight or tighter", "tighten it, or say `relaxes: true` with authority and source");
            }
        }
    }

    // What a code does not list it does not allow: a layer above that adds to its list would loosen it without a number to compare.
    private static void CheckNew(RuleSet set, Limit limit, ImmutableSortedDictionary<string, Limit> lower, IReadOnlyDictionary<string, RuleSet> all, Problems problems)
    {
        var code = limit.Name.Split('.')[0] + ".";
        if (limit.RelaxedBy is null && set.Head.EditionOf is null
            && lower.Values.FirstOrDefault(one => one.Name.StartsWith(code, StringComparison.Ordinal) && all[one.Layer].Head.EditionOf is not null) is { } stated)
        {
            problems.Add(
                limit.Place!, $"a limit that {stated.Layer} does not have among its own ({code.TrimEnd('.')})", "tighter values of the limits that the code states",
                "say `relaxes: true` with authority and source, or state a requirement of your own");
        }
    }

    private static void CheckSeverities(RequirementEntry entry, RequirementSpec below, Problems problems)
    {
        var lowers = (entry.NotMet is { } notMet && IsLower(notMet, below.NotMet)) || (entry.Missing is { } missing && IsLower(missing, below.Missing))
            || entry.Tiers.Any(tier => below.Tiers.TryGetValue(tier.Key, out var lower)
                && (IsLower(tier.Value.NotMet, lower.NotMet) || (tier.Value.Missing is { } unknown && IsLower(unknown, lower.Missing ?? below.Missing))));
        if (entry.RelaxedBy is null && lowers)
        {
            problems.Add(entry.Place, "a lower severity than the layers below set", "severities as high or higher", "raise them, or say `relaxed-by` with the authority");
        }
    }

    private static bool IsLower(Severities upper, Severities lower) =>
        Enum.GetValues<Stage>().Any(stage => upper.At(stage) is { } severity && severity < (lower.At(stage) ?? 0));

    // A plan can bring together rule sets of which none stands on the other: their limits must be comparable all the same, so that
    // the stricter can be told.
    private static void CheckBesides(RuleSet set, IReadOnlySet<string> closure, IReadOnlyDictionary<string, RuleSet> all, Problems problems)
    {
        // Each pair is looked at once, from the later of the two.
        foreach (var other in all.Values.Where(other => string.CompareOrdinal(other.Id, set.Id) < 0 && !closure.Contains(other.Id) && !Layering.Closure(other.Id, all).Contains(set.Id)))
        {
            Compare(set.Parameters, other.Parameters);
            foreach (var entry in set.Requirements.Values)
            {
                if (other.Requirements.TryGetValue(entry.Id, out var theirs))
                {
                    Compare(entry.Limits, theirs.Limits);
                }
            }
        }

        void Compare(ImmutableSortedDictionary<string, Limit> ours, ImmutableSortedDictionary<string, Limit> theirs)
        {
            foreach (var (limit, theirsOne) in ours.Values.Where(limit => theirs.ContainsKey(limit.Name)).Select(limit => (limit, theirs[limit.Name])))
            {
                if (!limit.IsComparableWith(theirsOne) || (limit.Tighter == Tighter.Neither && !limit.IsAtLeastAsTightAs(theirsOne)))
                {
                    problems.Add(
                        limit.Place!, $"a value of which it cannot be told whether it is stricter than that of {theirsOne.Layer}", "the same quantity and direction; a plan can use both rule sets",
                        "use the same quantity, and say which way is tighter");
                }
            }
        }
    }
}
