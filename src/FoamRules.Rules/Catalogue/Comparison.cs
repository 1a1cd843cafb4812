using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Catalogue;

/// <summary>What differs between two rule books, requirement by requirement.</summary>
internal sealed class Comparison
{
    private const string SharedValues = "parameters";

    private readonly DisplayUnits _units;
    private readonly ImmutableArray<Difference>.Builder _found = ImmutableArray.CreateBuilder<Difference>();

    private Comparison(DisplayUnits units) => _units = units;

    /// <summary>Everything that differs, by requirement.</summary>
    /// <param name="before">The rule book before.</param>
    /// <param name="after">The rule book after.</param>
    /// <param name="units">The units of the sentences.</param>
    public static ImmutableArray<Difference> Of(RuleBook before, RuleBook after, DisplayUnits units)
    {
        var comparison = new Comparison(units);
        foreach (var id in before.Requirements.Keys.Union(after.Requirements.Keys).Order(StringComparer.Ordinal))
        {
            comparison.Requirement(id, before.Requirements.GetValueOrDefault(id), after.Requirements.GetValueOrDefault(id));
        }

        comparison.Limits(SharedValues, before.Parameters, after.Parameters);
        return comparison._found.ToImmutable();
    }

    private void Requirement(string id, RequirementSpec? before, RequirementSpec? after)
    {
        if (before is null || after is null)
        {
            Texts(id, DifferenceAspect.Requirement, "", before?.Must ?? "", after?.Must ?? "");
            return;
        }

        Severities(id, "not met", before.NotMet, after.NotMet);
        Severities(id, "not known", before.Missing, after.Missing);
        Tiers(id, before.Tiers, after.Tiers);
        Limits(id, OwnLimits(before), OwnLimits(after));
        Sources(id, before, after);
        Texts(id, DifferenceAspect.Release, "release", string.Join(", ", before.Release), string.Join(", ", after.Release));
        Texts(id, DifferenceAspect.Release, "imminent-set-by", before.ImminentSetBy ?? "", after.ImminentSetBy ?? "");
        Texts(id, DifferenceAspect.Judging, "applies", before.Declared?.Applies?.Text ?? "", after.Declared?.Applies?.Text ?? "");
        Texts(id, DifferenceAspect.Judging, "met", before.Declared?.Met.Text ?? "", after.Declared?.Met.Text ?? "");
        Words(id, before, after);
    }

    // The limits of other requirements are told of there.
    private static ImmutableSortedDictionary<string, Limit> OwnLimits(RequirementSpec spec) =>
        spec.Limits.RemoveRange(spec.Limits.Keys.Where(name => spec.LimitsOf.Any(other => name.StartsWith(other + ".", StringComparison.Ordinal))));

    private void Severities(string id, string what, Severities before, Severities after)
    {
        foreach (var stage in Enum.GetValues<Stage>())
        {
            var (was, will) = (before.At(stage), after.At(stage));
            if (was != will)
            {
                var kind = (was ?? 0) < (will ?? 0) ? DifferenceKind.Tightens : DifferenceKind.Loosens;
                Add(id, DifferenceAspect.Severity, $"{what} at {RuleSetWords.Of(stage)}", kind, was is null ? "not judged" : RuleSetWords.Of(was.Value), will is null ? "not judged" : RuleSetWords.Of(will.Value));
            }
        }
    }

    private void Tiers(string id, ImmutableSortedDictionary<string, Tier> before, ImmutableSortedDictionary<string, Tier> after)
    {
        foreach (var name in before.Keys.Union(after.Keys).Order(StringComparer.Ordinal))
        {
            var (was, will) = (before.GetValueOrDefault(name), after.GetValueOrDefault(name));
            if (was is null || will is null)
            {
                Add(id, DifferenceAspect.Severity, name, was is null ? DifferenceKind.Appears : DifferenceKind.Vanishes, was is null ? "" : name, will is null ? "" : name);
            }
            else
            {
                Severities(id, $"{name}, not met", was.NotMet, will.NotMet);
                Severities(id, $"{name}, not known", was.Missing ?? RuleSets.Severities.None, will.Missing ?? RuleSets.Severities.None);
            }
        }
    }

    private void Limits(string id, ImmutableSortedDictionary<string, Limit> before, ImmutableSortedDictionary<string, Limit> after)
    {
        foreach (var name in before.Keys.Union(after.Keys).Order(StringComparer.Ordinal))
        {
            var (was, will) = (before.GetValueOrDefault(name), after.GetValueOrDefault(name));
            if (was is null || will is null)
            {
                Add(id, DifferenceAspect.Limit, name, was is null ? DifferenceKind.Appears : DifferenceKind.Vanishes, Says(was), Says(will));
            }
            else if (KindOf(was, will) is { } kind)
            {
                Add(id, DifferenceAspect.Limit, name, kind, Says(was), Says(will));
            }
        }
    }

    private static DifferenceKind? KindOf(Limit before, Limit after)
    {
        if (!after.IsComparableWith(before))
        {
            return DifferenceKind.Changes;
        }

        var (tighter, looser) = (after.IsAtLeastAsTightAs(before), before.IsAtLeastAsTightAs(after));
        return (tighter, looser) switch
        {
            (true, true) => Equals(before.Or, after.Or) ? null : DifferenceKind.Changes,
            (true, false) => DifferenceKind.Tightens,
            (false, true) => DifferenceKind.Loosens,
            _ => DifferenceKind.Changes,
        };
    }

    private string Says(Limit? limit) => limit is null ? "" : $"{LimitText.Show(limit, _units)} ({limit.Layer})";

    // What is new and what is gone; what both cite is not repeated.
    private void Sources(string id, RequirementSpec before, RequirementSpec after)
    {
        var (was, will) = (Cited(before), Cited(after));
        Texts(id, DifferenceAspect.Sources, "", string.Join("; ", was.Except(will)), string.Join("; ", will.Except(was)));
    }

    private static List<string> Cited(RequirementSpec spec) =>
        [.. spec.Sources.Concat(spec.Tiers.Values.SelectMany(tier => tier.Sources)).Concat(OwnLimits(spec).Values.Select(limit => limit.Source))
            .Select(source => $"{source.Citation} ({RuleSetWords.Of(source.Status)})").Distinct()];

    private void Words(string id, RequirementSpec before, RequirementSpec after)
    {
        Texts(id, DifferenceAspect.Words, "must", before.Must, after.Must);
        Texts(id, DifferenceAspect.Words, "caution", before.Caution, after.Caution);
        Texts(id, DifferenceAspect.Words, "example", before.Example, after.Example);
        Texts(id, DifferenceAspect.Words, "says", before.Says, after.Says);
        Texts(id, DifferenceAspect.Words, "remedy", before.Remedies, after.Remedies);
        Texts(id, DifferenceAspect.Words, "not-applicable", before.NotApplicable, after.NotApplicable);
    }

    private void Texts(string id, DifferenceAspect aspect, string name, ImmutableSortedDictionary<string, string> before, ImmutableSortedDictionary<string, string> after)
    {
        foreach (var key in before.Keys.Union(after.Keys).Order(StringComparer.Ordinal))
        {
            Texts(id, aspect, key.Length == 0 ? name : $"{name}.{key}", before.GetValueOrDefault(key, ""), after.GetValueOrDefault(key, ""));
        }
    }

    private void Texts(string id, DifferenceAspect aspect, string name, string before, string after)
    {
        if (before != after)
        {
            Add(id, aspect, name, before.Length == 0 ? DifferenceKind.Appears : after.Length == 0 ? DifferenceKind.Vanishes : DifferenceKind.Changes, before, after);
        }
    }

    private void Add(string id, DifferenceAspect aspect, string name, DifferenceKind kind, string before, string after) =>
        _found.Add(new Difference(id, aspect, name, kind, before, after));
}
