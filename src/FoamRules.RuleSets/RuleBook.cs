using System.Collections.Concurrent;
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

    /// <summary>The rule set that sets the severity of each stage when it is not met.</summary>
    public required ImmutableDictionary<Stage, string> NotMetLayers { get; init; }

    /// <summary>The rule set that sets the severity of each stage when an input is missing.</summary>
    public required ImmutableDictionary<Stage, string> MissingLayers { get; init; }

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
    private readonly ConcurrentDictionary<string, RuleBook> _spoken = new(StringComparer.Ordinal);

    private RuleBook(ImmutableArray<RuleSet> layers, ImmutableSortedDictionary<string, RequirementSpec> requirements, ImmutableSortedDictionary<string, Limit> parameters)
    {
        Layers = layers;
        Requirements = requirements.ToImmutableSortedDictionary(pair => pair.Key, pair => WithLimitsOfOthers(pair.Value, requirements), StringComparer.Ordinal);
        Parameters = parameters;
        Hazards = Merge(layers.Select(layer => layer.Hazards));
        Texts = Merge(layers.Select(layer => layer.Texts));
        Prices = Topmost(layers);
        Questions = Merge(layers.Select(layer => layer.Questions));
        Relaxations = [.. Relaxed(Texts, layers, requirements, parameters).Order(StringComparer.Ordinal)];
    }

    // The words of another language; everything else is the English book's own.
    private RuleBook(RuleBook english, string language)
    {
        ImmutableArray<RuleSet> spoken = [.. english.Layers.Select(layer => RuleSetTexts.Spoken(layer, language))];
        Layers = spoken;
        Language = language;
        Requirements = english.Requirements.ToImmutableSortedDictionary(
            pair => pair.Key, pair => WithWords(pair.Value, [.. spoken.Select(layer => layer.Requirements.GetValueOrDefault(pair.Key)).OfType<RequirementEntry>()]), StringComparer.Ordinal);
        Parameters = english.Parameters;
        Hazards = Merge(spoken.Select(layer => layer.Hazards));
        Texts = Merge(spoken.Select(layer => layer.Texts));
        Prices = Topmost(spoken);
        Questions = Merge(spoken.Select(layer => layer.Questions));
        Relaxations = [.. Relaxed(Texts, spoken, english.Requirements, english.Parameters).Order(StringComparer.Ordinal)];
    }

    /// <summary>The rule sets, the lowest first.</summary>
    public ImmutableArray<RuleSet> Layers { get; }

    /// <summary>The language of its words.</summary>
    public string Language { get; } = Translation.English;

    /// <summary>The translations behind its words, the lowest layer's first; empty for English.</summary>
    public IEnumerable<Translation> Translations => Layers.Select(layer => layer.Translations.GetValueOrDefault(Language)).OfType<Translation>();

    /// <summary>How many of its texts no translation has, so that they stand in English.</summary>
    public int Untranslated => Language == Translation.English ? 0
        : Layers.Sum(layer => layer.Translations.TryGetValue(Language, out var translation) ? translation.Gaps.Length : RuleSetTexts.Of(layer).Count);

    /// <summary>The requirements by id.</summary>
    public ImmutableSortedDictionary<string, RequirementSpec> Requirements { get; }

    /// <summary>Values that several requirements share.</summary>
    public ImmutableSortedDictionary<string, Limit> Parameters { get; }

    /// <summary>The hazards' texts by id.</summary>
    public ImmutableSortedDictionary<string, HazardEntry> Hazards { get; }

    /// <summary>Texts that stand on every report.</summary>
    public ImmutableSortedDictionary<string, string> Texts { get; }

    /// <summary>What must be in the price, in the order in which it is listed; an upper layer's line stands in the place of a lower one's.</summary>
    public ImmutableArray<PriceEntry> Prices { get; }

    /// <summary>The question for each field that may be missing, by the field's path without ids and indexes.</summary>
    public ImmutableSortedDictionary<string, string> Questions { get; }

    /// <summary>Every relaxation in force, in a sentence.</summary>
    public ImmutableArray<string> Relaxations { get; }

    /// <summary>The rule sets' ids, joined: the same for the same snapshot.</summary>
    public string Key => string.Join("+", Layers.Select(layer => layer.Id));

    /// <summary>Layers rule sets on each other.</summary>
    /// <param name="layers">The rule sets; they are put in the order of their levels.</param>
    public static RuleBook Build(IEnumerable<RuleSet> layers)
    {
        var layering = new Layering(layers);
        var ordered = layering.LowestFirst;
        var parameters = LimitMerge.Merge([.. ordered.Select(layer => (layer.Id, layer.Parameters))], layering);
        var requirements = ordered.SelectMany(layer => layer.Requirements.Keys).Distinct(StringComparer.Ordinal)
            .ToImmutableSortedDictionary(id => id, id => Merge(id, [.. ordered.Where(layer => layer.Requirements.ContainsKey(id)).Select(layer => (layer, layer.Requirements[id]))], parameters, layering), StringComparer.Ordinal);
        return new RuleBook(ordered, requirements, parameters);
    }

    /// <summary>The same book with its words in a language; limits, severities, sources and ids are the same.</summary>
    /// <param name="language">English, or a language into which a rule set is translated; what it lacks stays in English.</param>
    public RuleBook In(string language) => language == Language ? this : _spoken.GetOrAdd(language, one => new RuleBook(this, one));

    private static RequirementSpec WithWords(RequirementSpec spec, ImmutableArray<RequirementEntry> lowestFirst) => spec with
    {
        Must = lowestFirst.Select(entry => entry.Must).LastOrDefault(text => text is not null) ?? "",
        Says = Merge(lowestFirst.Select(entry => entry.Says)),
        NotApplicable = Merge(lowestFirst.Select(entry => entry.NotApplicable)),
        Remedies = Merge(lowestFirst.Select(entry => entry.Remedies)),
        Caution = lowestFirst.Select(entry => entry.Caution).LastOrDefault(text => text is not null) ?? "",
    };

    private static RequirementSpec Merge(
        string id, ImmutableArray<(RuleSet Layer, RequirementEntry Entry)> entries, ImmutableSortedDictionary<string, Limit> parameters, Layering layering)
    {
        var upperFirst = entries.Reverse().Select(pair => pair.Entry).ToList();
        var (notMet, notMetLayers) = SeverityMerge.Merge([.. entries.Select(pair => new SeveritiesSaid(pair.Layer.Id, pair.Entry.NotMet, pair.Entry.RelaxedBy))], layering);
        var (missing, missingLayers) = SeverityMerge.Merge([.. entries.Select(pair => new SeveritiesSaid(pair.Layer.Id, pair.Entry.Missing, pair.Entry.RelaxedBy))], layering);
        return new RequirementSpec
        {
            Id = id,
            Must = upperFirst.Select(entry => entry.Must).FirstOrDefault(text => text is not null) ?? "",
            NotMet = notMet,
            NotMetLayers = notMetLayers,
            Missing = missing,
            MissingLayers = missingLayers,
            Release = upperFirst.Select(entry => entry.Release).FirstOrDefault(roles => roles is not null) ?? [],
            ImminentSetBy = upperFirst.Select(entry => entry.ImminentSetBy).FirstOrDefault(role => role is not null),
            Sources = [.. upperFirst.SelectMany(entry => entry.Sources)],
            Limits = LimitMerge.Merge([.. entries.Select(pair => (pair.Layer.Id, pair.Entry.Limits))], layering),
            LimitsOf = [.. entries.SelectMany(pair => pair.Entry.LimitsOf).Distinct()],
            Parameters = parameters,
            Tiers = MergeTiers(entries, layering),
            Says = Merge(entries.Select(pair => pair.Entry.Says)),
            NotApplicable = Merge(entries.Select(pair => pair.Entry.NotApplicable)),
            Remedies = Merge(entries.Select(pair => pair.Entry.Remedies)),
            Caution = upperFirst.Select(entry => entry.Caution).FirstOrDefault(text => text is not null) ?? "",
            Example = upperFirst.Select(entry => entry.Example).FirstOrDefault(text => text is not null) ?? "",
            Layers = [.. entries.Select(pair => pair.Layer.Id)],
            Declared = entries.Select(pair => pair.Entry.Declared).FirstOrDefault(rule => rule is not null),
        };
    }

    private static ImmutableSortedDictionary<string, Tier> MergeTiers(ImmutableArray<(RuleSet Layer, RequirementEntry Entry)> entries, Layering layering) =>
        entries.SelectMany(pair => pair.Entry.Tiers.Keys).Distinct(StringComparer.Ordinal).ToImmutableSortedDictionary(
            name => name,
            name =>
            {
                var said = entries.Where(pair => pair.Entry.Tiers.ContainsKey(name)).Select(pair => (pair.Layer.Id, pair.Entry.RelaxedBy, Tier: pair.Entry.Tiers[name])).ToList();
                var notMet = SeverityMerge.Merge([.. said.Select(one => new SeveritiesSaid(one.Id, one.Tier.NotMet, one.RelaxedBy))], layering).Severities;
                var missing = said.Exists(one => one.Tier.Missing is not null)
                    ? SeverityMerge.Merge([.. said.Select(one => new SeveritiesSaid(one.Id, one.Tier.Missing, one.RelaxedBy))], layering).Severities
                    : null;
                return new Tier(notMet, missing, [.. said.AsEnumerable().Reverse().SelectMany(one => one.Tier.Sources)], [.. said.Select(one => one.Id)]);
            },
            StringComparer.Ordinal);

    // A relaxation is in force where what stands is looser than what it overruled, even where a layer above it has tightened it again.
    private static IEnumerable<string> Relaxed(
        ImmutableSortedDictionary<string, string> texts, IEnumerable<RuleSet> layers, ImmutableSortedDictionary<string, RequirementSpec> requirements, ImmutableSortedDictionary<string, Limit> parameters)
    {
        var limits = requirements.Values.SelectMany(spec => spec.Limits.Values.Select(limit => (spec.Id, Limit: limit))).Concat(parameters.Values.Select(limit => (Id: "parameters", Limit: limit)));
        foreach (var (id, limit) in limits.Where(pair => IsRelaxed(pair.Limit)))
        {
            foreach (var relaxing in limit.Below.Append(limit).Where(one => one.RelaxedBy is not null))
            {
                yield return Said("relaxed-limit", "{requirement}: {limit} relaxed by {layer}, by authority of {authority} ({source})", id, relaxing.Name, relaxing.Layer, relaxing.RelaxedBy!, relaxing.Source.Citation);
            }
        }

        foreach (var entry in layers.SelectMany(layer => layer.Requirements.Values.Where(entry => entry.RelaxedBy is not null).Select(entry => (layer.Id, Entry: entry))))
        {
            yield return Said("relaxed-severities", "{requirement}: severities relaxed by {layer}, by authority of {authority} ({source})", entry.Entry.Id, "", entry.Id, entry.Entry.RelaxedBy!, string.Join("; ", entry.Entry.Sources.Select(source => source.Citation)));
        }

        string Said(string key, string english, string requirement, string limit, string layer, string authority, string source) => texts.GetValueOrDefault(key, english)
            .Replace("{requirement}", requirement, StringComparison.Ordinal).Replace("{limit}", limit, StringComparison.Ordinal).Replace("{layer}", layer, StringComparison.Ordinal)
            .Replace("{authority}", authority, StringComparison.Ordinal).Replace("{source}", source, StringComparison.Ordinal);
    }

    // What is added to a code's list by authority overrules nothing, and relaxes all the same.
    private static bool IsRelaxed(Limit limit) => limit.Below.Any(other => other.IsOverruled)
        ? limit.Below.Any(other => other.IsOverruled && !limit.IsAtLeastAsTightAs(other))
        : limit.RelaxedBy is not null;

    private static RequirementSpec WithLimitsOfOthers(RequirementSpec spec, ImmutableSortedDictionary<string, RequirementSpec> all)
    {
        if (spec.LimitsOf.IsEmpty)
        {
            return spec;
        }

        var others = from other in all.Values
                     where spec.LimitsOf.Any(wanted => $"{wanted}.".StartsWith($"{other.Id}.", StringComparison.Ordinal) || $"{other.Id}.".StartsWith($"{wanted}.", StringComparison.Ordinal))
                     from limit in other.Limits.Values
                     let name = $"{other.Id}.{limit.Name}"
                     where spec.LimitsOf.Any(wanted => name.StartsWith(wanted + ".", StringComparison.Ordinal))
                     select KeyValuePair.Create(name, limit with { Name = name });
        return spec with { Limits = spec.Limits.AddRange(others) };
    }

    private static ImmutableArray<PriceEntry> Topmost(IEnumerable<RuleSet> lowestFirst) =>
        [.. lowestFirst.SelectMany(layer => layer.Prices).GroupBy(entry => entry.Id, StringComparer.Ordinal).Select(said => said.Last())];

    private static ImmutableSortedDictionary<string, T> Merge<T>(IEnumerable<ImmutableSortedDictionary<string, T>> lowestFirst)
    {
        var said = lowestFirst.Where(texts => !texts.IsEmpty).ToList();
        if (said is [{ KeyComparer: var comparer } only] && comparer == StringComparer.Ordinal)
        {
            return only;
        }

        var merged = ImmutableSortedDictionary.CreateBuilder<string, T>(StringComparer.Ordinal);
        foreach (var (key, value) in said.SelectMany(texts => texts))
        {
            merged[key] = value;
        }

        return merged.ToImmutable();
    }
}
