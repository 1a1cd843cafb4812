using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>
/// Makes one limit of what several layers say under one name. The stricter stands, whatever the order of the layers; a relaxation
/// overrules only the layers on which its own stands. Of two that are equally tight the one stands whose source is better known, so
/// that an edition which was read is not weakened by one that is only recalled.
/// </summary>
internal static class LimitMerge
{
    public static ImmutableSortedDictionary<string, Limit> Merge(IReadOnlyList<(string Layer, ImmutableSortedDictionary<string, Limit> Limits)> lowestFirst, Layering layering)
    {
        if (lowestFirst is [var alone] && layering.Editions.IsEmpty)
        {
            return alone.Limits;
        }

        var all = lowestFirst.SelectMany(entry => entry.Limits.Values).ToList();
        var notInAll = NotAllowedByAll(all, layering);
        return all.GroupBy(limit => limit.Name, StringComparer.Ordinal)
            .Where(said => !said.Any(limit => limit.Allows is { } what && notInAll.Contains(what)))
            .ToImmutableSortedDictionary(said => said.Key, said => One([.. said], layering), StringComparer.Ordinal);
    }

    // What a document allows counts only where each of its editions that stand here allows it.
    private static HashSet<string> NotAllowedByAll(List<Limit> all, Layering layering) =>
        [.. from editions in layering.Editions
            from said in all.Where(limit => limit.Allows is not null && editions.Contains(limit.Layer)).GroupBy(limit => limit.Allows!, limit => limit.Layer)
            where said.Distinct().Count() < editions.Count
            select said.Key];

    private static Limit One(IReadOnlyList<Limit> lowestFirst, Layering layering)
    {
        if (lowestFirst is [var only])
        {
            return only;
        }

        var overruled = lowestFirst.Where(lower => lowestFirst.Any(upper => upper.RelaxedBy is not null && layering.StandsOn(upper.Layer, lower.Layer))).ToHashSet(ReferenceEqualityComparer.Instance);
        var standing = lowestFirst.Where(limit => !overruled.Contains(limit)).ToList();
        var strictest = standing.Aggregate((lower, upper) => IsStricter(upper, lower) ? upper : lower);
        var others = lowestFirst.Where(limit => !ReferenceEquals(limit, strictest)).Select(limit => overruled.Contains(limit) ? limit with { IsOverruled = true } : limit);
        var merged = strictest with { Below = [.. others] };
        return merged.Tighter == Tighter.Fewer ? Common(merged, standing) : merged;
    }

    // Lists of which none lies inside the other: only the words of all of them are allowed.
    private static Limit Common(Limit strictest, List<Limit> standing)
    {
        var words = strictest.Words.Where(word => standing.All(limit => limit.Words.Contains(word))).ToImmutableArray();
        return words.Length == strictest.Words.Length ? strictest : strictest with
        {
            Words = words,
            Value = Measure.OfText(words.IsEmpty ? "nothing that all rule sets in use allow" : string.Join(", ", words)),
        };
    }

    private static bool IsStricter(Limit upper, Limit lower) =>
        upper.IsAtLeastAsTightAs(lower) && (!lower.IsAtLeastAsTightAs(upper) || lower.Source.IsWeak || !upper.Source.IsWeak);
}
