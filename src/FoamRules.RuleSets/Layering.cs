using System.Collections.Immutable;

namespace FoamRules.RuleSets;

/// <summary>Rule sets in the order in which they stand on each other.</summary>
internal sealed class Layering
{
    private readonly ImmutableDictionary<string, ImmutableHashSet<string>> _below;

    /// <summary>Puts rule sets in order: by level, then those that stand on fewer first, then by id.</summary>
    public Layering(IEnumerable<RuleSet> ruleSets)
    {
        var sets = ruleSets.DistinctBy(set => set.Id).ToDictionary(set => set.Id, StringComparer.Ordinal);
        _below = sets.Keys.ToImmutableDictionary(id => id, id => Closure(id, sets).ToImmutableHashSet(StringComparer.Ordinal), StringComparer.Ordinal);
        LowestFirst = [.. sets.Values.OrderBy(set => set.Level).ThenBy(set => _below[set.Id].Count).ThenBy(set => set.Id, StringComparer.Ordinal)];
        Editions = [.. LowestFirst.Where(set => set.Head.EditionOf is not null).GroupBy(set => set.Head.EditionOf!, set => set.Id).Where(editions => editions.Count() > 1).Select(editions => editions.ToImmutableHashSet(StringComparer.Ordinal))];
    }

    /// <summary>The rule sets, the lowest first.</summary>
    public ImmutableArray<RuleSet> LowestFirst { get; }

    /// <summary>The documents of which more than one edition stands here, each as the ids of its editions.</summary>
    public ImmutableArray<ImmutableHashSet<string>> Editions { get; }

    /// <summary>True where one rule set stands on another, itself or through others.</summary>
    public bool StandsOn(string upper, string lower) => _below[upper].Contains(lower);

    /// <summary>The ids on which a rule set stands, itself or through others, among those that are there.</summary>
    public static IReadOnlySet<string> Closure(string id, IReadOnlyDictionary<string, RuleSet> all)
    {
        var found = new HashSet<string>(StringComparer.Ordinal);
        var open = new Stack<string>([id]);
        while (open.TryPop(out var next))
        {
            foreach (var below in all[next].Head.StandsOn.Where(all.ContainsKey).Where(found.Add))
            {
                open.Push(below);
            }
        }

        return found;
    }
}
