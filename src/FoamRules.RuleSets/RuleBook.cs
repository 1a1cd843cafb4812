using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets.Declared;

namespace FoamRules.RuleSets;

/// <summary>One requirement as the layers together state it.</summary>
public sealed record RequirementSpec
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>What must hold, in a sentence.</summary>
    public required string Must { get; init; }

    /// <summary>Severities when it is not met.</summary>
    public required Severities NotMet { get; init; }

    /// <summary>Severities when an input is missing.</summary>
    public required Severities Missing { get; init; }

    /// <summary>Roles that may release a hold.</summary>
    public required ImmutableArray<string> Release { get; init; }

    /// <summary>The role that flagged the row as imminent danger; null where weak sources cap it.</summary>
    public required string? ImminentSetBy { get; init; }

    /// <summary>Sources of the requirement as a whole, those of the upper layers first.</summary>
    public required ImmutableArray<Source> Sources { get; init; }

    /// <summary>Limits by name; those of other requirements under their id and name, such as <c>fire.roof-exception-fits.ibc.panel</c>.</summary>
    public required ImmutableSortedDictionary<string, Limit> Limits { get; init; }

    /// <summary>Whose limits stand among its own: ids of requirements, or groups of their limits.</summary>
    public required ImmutableArray<string> LimitsOf { get; init; }

    /// <summary>Values that several requirements share, by name.</summary>
    public required ImmutableSortedDictionary<string, Limit> Parameters { get; init; }

    /// <summary>Tiers by name.</summary>
    public required ImmutableSortedDictionary<string, Tier> Tiers { get; init; }

    /// <summary>What is said of the outcome, by key.</summary>
    public required ImmutableSortedDictionary<string, string> Says { get; init; }

    /// <summary>Why it does not apply, by key.</summary>
    public required ImmutableSortedDictionary<string, string> NotApplicable { get; init; }

    /// <summary>What would put it right, by the key of what is said; the empty key for all.</summary>
    public required ImmutableSortedDictionary<string, string> Remedies { get; init; }

    /// <summary>The caution that stands on it; empty where there is none.</summary>
    public required string Caution { get; init; }

    /// <summary>An example; empty where there is none.</summary>
    public required string Example { get; init; }

    /// <summary>The rule sets that say something of it, the lowest first.</summary>
    public required ImmutableArray<string> Layers { get; init; }

    /// <summary>How it is judged, where a rule set says so; null where a class judges it.</summary>
    public required DeclaredRule? Declared { get; init; }

    /// <summary>The topic: the part of the id before the point.</summary>
    public string Topic => Id[..Id.IndexOf('.', StringComparison.Ordinal)];
}

/// <summary>The rule sets that one check uses, layered: an immutable snapshot.</summary>
public sealed class RuleBook
{
    private RuleBook(ImmutableArray<RuleSet> layers, ImmutableSortedDictionary<string, RequirementSpec> requirements, ImmutableSortedDictionary<string, Limit> parameters)
    {
        Layers = layers;
        Requirements = requirements.ToImmutableSortedDictionary(pair => pair.Key, pair => WithLimitsOfOthers(pair.Value, requirements), StringComparer.Ordinal);
        Parameters = parameters;
        Hazards = Merge(layers.Select(layer => layer.Hazards));
        Texts = Merge(layers.Select(layer => layer.Texts));
        Relaxations = [.. requirements.Values.SelectMany(spec => spec.Limits.Values.Select(limit => (spec.Id, limit)))
            .Concat(parameters.Values.Select(limit => ("parameters", limit)))
            .Where(pair => pair.limit.RelaxedBy is not null)
            .Select(pair => $"{pair.Item1}: {pair.limit.Name} relaxed by {pair.limit.Layer}, by authority of {pair.limit.RelaxedBy} ({pair.limit.Source.Citation})")];
    }

    /// <summary>The rule sets, the lowest first.</summary>
    public ImmutableArray<RuleSet> Layers { get; }

    /// <summary>The requirements by id.</summary>
    public ImmutableSortedDictionary<string, RequirementSpec> Requirements { get; }

    /// <summary>Values that several requirements share.</summary>
    public ImmutableSortedDictionary<string, Limit> Parameters { get; }

    /// <summary>The hazards' texts by id.</summary>
    public ImmutableSortedDictionary<string, HazardEntry> Hazards { get; }

    /// <summary>Texts that stand on every report.</summary>
    public ImmutableSortedDictionary<string, string> Texts { get; }

    /// <summary>Every relaxation in force, in a sentence.</summary>
    public ImmutableArray<string> Relaxations { get; }

    /// <summary>The rule sets' ids, joined: the same for the same snapshot.</summary>
    public string Key => string.Join("+", Layers.Select(layer => layer.Id));

    /// <summary>Layers rule sets on each other.</summary>
    /// <param name="layers">The rule sets; they are put in the order of their levels.</param>
    public static RuleBook Build(IEnumerable<RuleSet> layers)
    {
        var ordered = layers.OrderBy(layer => layer.Level).ThenBy(layer => layer.Id, StringComparer.Ordinal).ToImmutableArray();
        var parameters = MergeLimits(ordered.Select(layer => layer.Parameters));
        var requirements = ordered.SelectMany(layer => layer.Requirements.Keys).Distinct(StringComparer.Ordinal)
            .ToImmutableSortedDictionary(id => id, id => Merge(id, [.. ordered.Where(layer => layer.Requirements.ContainsKey(id)).Select(layer => (layer, layer.Requirements[id]))], parameters), StringComparer.Ordinal);
        return new RuleBook(ordered, requirements, parameters);
    }

    private static RequirementSpec Merge(string id, ImmutableArray<(RuleSet Layer, RequirementEntry Entry)> entries, ImmutableSortedDictionary<string, Limit> parameters)
    {
        var upperFirst = entries.Reverse().Select(pair => pair.Entry).ToList();
        return new RequirementSpec
        {
            Id = id,
            Must = upperFirst.Select(entry => entry.Must).FirstOrDefault(text => text is not null) ?? "",
            NotMet = MergeSeverities(entries.Select(pair => (pair.Entry.NotMet, pair.Entry.RelaxedBy))),
            Missing = MergeSeverities(entries.Select(pair => (pair.Entry.Missing, pair.Entry.RelaxedBy))),
            Release = upperFirst.Select(entry => entry.Release).FirstOrDefault(roles => roles is not null) ?? [],
            ImminentSetBy = upperFirst.Select(entry => entry.ImminentSetBy).FirstOrDefault(role => role is not null),
            Sources = [.. upperFirst.SelectMany(entry => entry.Sources)],
            Limits = MergeLimits(entries.Select(pair => pair.Entry.Limits)),
            LimitsOf = [.. entries.SelectMany(pair => pair.Entry.LimitsOf).Distinct()],
            Parameters = parameters,
            Tiers = Merge(entries.Select(pair => pair.Entry.Tiers)),
            Says = Merge(entries.Select(pair => pair.Entry.Says)),
            NotApplicable = Merge(entries.Select(pair => pair.Entry.NotApplicable)),
            Remedies = Merge(entries.Select(pair => pair.Entry.Remedies)),
            Caution = upperFirst.Select(entry => entry.Caution).FirstOrDefault(text => text is not null) ?? "",
            Example = upperFirst.Select(entry => entry.Example).FirstOrDefault(text => text is not null) ?? "",
            Layers = [.. entries.Select(pair => pair.Layer.Id)],
            Declared = entries.Select(pair => pair.Entry.Declared).FirstOrDefault(rule => rule is not null),
        };
    }

    private static RequirementSpec WithLimitsOfOthers(RequirementSpec spec, ImmutableSortedDictionary<string, RequirementSpec> all)
    {
        var others = from other in spec.LimitsOf.IsEmpty ? [] : all.Values
                     from limit in other.Limits.Values
                     let name = $"{other.Id}.{limit.Name}"
                     where spec.LimitsOf.Any(wanted => name.StartsWith(wanted + ".", StringComparison.Ordinal))
                     select KeyValuePair.Create(name, limit with { Name = name });
        return spec with { Limits = spec.Limits.AddRange(others) };
    }

    private static ImmutableSortedDictionary<string, T> Merge<T>(IEnumerable<ImmutableSortedDictionary<string, T>> lowestFirst)
    {
        var merged = ImmutableSortedDictionary.CreateBuilder<string, T>(StringComparer.Ordinal);
        foreach (var (key, value) in lowestFirst.SelectMany(texts => texts))
        {
            merged[key] = value;
        }

        return merged.ToImmutable();
    }

    // An upper layer's limit stands where it is as tight, or where it may relax. Two layers of one level can disagree: the
    // tighter one stands then.
    private static ImmutableSortedDictionary<string, Limit> MergeLimits(IEnumerable<ImmutableSortedDictionary<string, Limit>> lowestFirst)
    {
        var merged = ImmutableSortedDictionary.CreateBuilder<string, Limit>(StringComparer.Ordinal);
        foreach (var (name, upper) in lowestFirst.SelectMany(limits => limits))
        {
            if (!merged.TryGetValue(name, out var lower))
            {
                merged[name] = upper;
            }
            else if (upper.RelaxedBy is not null || IsStricter(upper, lower))
            {
                merged[name] = upper with { Below = lower.Below.Add(lower) };
            }
            else
            {
                merged[name] = lower with { Below = lower.Below.Add(upper) };
            }
        }

        return merged.ToImmutable();
    }

    // Of two that are equally tight the one stands whose source is better known, so that a limit read in one edition is not
    // weakened by another edition that is only recalled.
    private static bool IsStricter(Limit upper, Limit lower) =>
        upper.IsComparableWith(lower) && upper.IsAtLeastAsTightAs(lower)
        && (!lower.IsAtLeastAsTightAs(upper) || lower.Source.IsWeak || !upper.Source.IsWeak);

    private static Severities MergeSeverities(IEnumerable<(Severities? Severities, string? RelaxedBy)> lowestFirst)
    {
        var merged = Severities.None;
        foreach (var (upper, relaxedBy) in lowestFirst)
        {
            if (upper is not null)
            {
                merged = relaxedBy is not null ? upper : new Severities(
                    Worse(merged.Quote, upper.Quote), Worse(merged.Plan, upper.Plan), Worse(merged.PreStart, upper.PreStart), Worse(merged.CloseOut, upper.CloseOut));
            }
        }

        return merged;
    }

    private static Severity? Worse(Severity? a, Severity? b) => a is null ? b : b is null ? a : (Severity)Math.Max((int)a, (int)b);
}
