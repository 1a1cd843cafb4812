using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Judging;

/// <summary>
/// What a requirement's judge says of one bearer: the outcome, the numbers behind it and where in the plan they stand. The
/// words that a reader sees come from the rule set, under the key <see cref="Says"/>.
/// </summary>
public sealed record Verdict
{
    /// <summary>The outcome.</summary>
    public required Outcome Outcome { get; init; }

    /// <summary>The key of what is said, in the rule set's <c>says</c>.</summary>
    public required string Says { get; init; }

    /// <summary>The value found.</summary>
    public Measure? Value { get; init; }

    /// <summary>The limit that it was held against.</summary>
    public Limit? Limit { get; init; }

    /// <summary>How far on the right side of the limit.</summary>
    public Measure? Margin { get; init; }

    /// <summary>The tier whose severities count; null: the requirement's own.</summary>
    public string? Tier { get; init; }

    /// <summary>The limits behind the verdict besides <see cref="Limit"/>, for their sources.</summary>
    public ImmutableArray<Limit> AlsoRestsOn { get; init; } = [];

    /// <summary>The fields that it rests on.</summary>
    public ImmutableArray<FieldRef> Evidence { get; init; } = [];

    /// <summary>The fields that are missing.</summary>
    public ImmutableArray<FieldRef> MissingFields { get; init; } = [];

    /// <summary>How the numbers were worked out.</summary>
    public ImmutableArray<WorkedStep> Steps { get; init; } = [];

    /// <summary>Values for the placeholders of the text, besides <c>value</c>, <c>limit</c> and <c>margin</c>.</summary>
    public ImmutableDictionary<string, Measure> Words { get; init; } = ImmutableDictionary<string, Measure>.Empty;

    /// <summary>What else is broken, each said in another way than this: a reader who puts right only the worst would meet it next.</summary>
    public ImmutableArray<Verdict> Besides { get; init; } = [];

    /// <summary>It holds.</summary>
    public static Verdict Met(string says = "met") => new() { Outcome = Outcome.Met, Says = says };

    /// <summary>It does not hold.</summary>
    public static Verdict NotMet(string says = "not-met") => new() { Outcome = Outcome.NotMet, Says = says };

    /// <summary>It cannot be judged, because a field is missing.</summary>
    public static Verdict Missing(PlanNode node, string property) => new() { Outcome = Outcome.Undetermined, Says = "missing", MissingFields = [new FieldRef(node, property)] };

    /// <summary>It cannot be judged, because fields are missing.</summary>
    public static Verdict Missing(params ImmutableArray<FieldRef> fields) => new() { Outcome = Outcome.Undetermined, Says = "missing", MissingFields = fields };

    /// <summary>It cannot be judged for another reason than a missing field, such as a calculation out of its range.</summary>
    public static Verdict Undetermined(string says) => new() { Outcome = Outcome.Undetermined, Says = says };

    /// <summary>It does not apply after all: found out while judging. The reason is a key of the rule set's <c>not-applicable</c>.</summary>
    public static Verdict NotApplicable(string reason) => new() { Outcome = Outcome.NotApplicable, Says = reason };

    /// <summary>A calculation was refused because an input lies outside its range; said under the key <c>out-of-range</c>.</summary>
    public static Verdict OutOfRange(Refusal refusal) => Undetermined("out-of-range")
        .With("input", Spoken.Word(refusal.Input)).With("found", refusal.Found).With("allowed", Spoken.Range(refusal.Allowed));

    /// <summary>Met where a yes/no field says yes, not met where it says no, undetermined where it says nothing.</summary>
    public static Verdict Confirmed(bool? answer, PlanNode node, string property, string notMet = "not-met") => answer switch
    {
        true => Met().On(node, property),
        false => NotMet(notMet).On(node, property),
        null => Missing(node, property),
    };

    /// <summary>Met where all are met; otherwise the worst: a fault that is known outweighs one that is not.</summary>
    /// <param name="verdicts">The verdicts; empty: there is nothing that could fail, so it is met.</param>
    public static Verdict Worst(IEnumerable<Verdict> verdicts)
    {
        Verdict? worst = null;
        List<FieldRef>? missing = null;
        List<Verdict>? broken = null;
        foreach (var verdict in verdicts)
        {
            if (verdict.Outcome == Outcome.NotMet)
            {
                (broken ??= []).Add(verdict);
            }

            if (!verdict.MissingFields.IsEmpty)
            {
                (missing ??= []).AddRange(verdict.MissingFields);
            }

            if (worst is null || Rank(verdict) > Rank(worst) || (Rank(verdict) == Rank(worst) && IsCloser(verdict, worst)))
            {
                worst = verdict;
            }
        }

        return worst is null ? Met() : WithBesides(missing is null ? worst : worst with { MissingFields = [.. missing.Distinct()] }, broken);
    }

    // One of each kind: the same sentence once more, of the next item or the next assumption, says nothing new to do.
    private static Verdict WithBesides(Verdict worst, List<Verdict>? broken) => broken is not { Count: > 1 } ? worst : worst with
    {
        Besides = [.. broken.SelectMany(verdict => verdict.Besides.Prepend(verdict)).Where(verdict => verdict.Says != worst.Says).DistinctBy(verdict => verdict.Says).Select(verdict => verdict with { Besides = [] })],
    };

    /// <summary>Adds a field that the verdict rests on.</summary>
    public Verdict On(PlanNode node, string property, Measure? value = null) => this with { Evidence = Evidence.Add(new FieldRef(node, property, value)) };

    /// <summary>Adds a field that the verdict rests on, with its quantity.</summary>
    public Verdict On(PlanNode node, string property, IQuantity value) => On(node, property, Measure.Of(value));

    /// <summary>Adds a value for a placeholder.</summary>
    public Verdict With(string word, Measure value) => this with
    {
        Words = Words.SetItem(word, value),
        Besides = Besides.IsEmpty ? Besides : [.. Besides.Select(verdict => verdict.With(word, value))],
    };

    /// <summary>Adds a quantity for a placeholder.</summary>
    public Verdict With(string word, IQuantity value) => With(word, Measure.Of(value));

    /// <summary>Adds a text for a placeholder.</summary>
    public Verdict With(string word, string value) => With(word, Measure.OfText(value));

    /// <summary>Adds a count for a placeholder.</summary>
    public Verdict With(string word, long value) => With(word, Measure.OfCount(value));

    /// <summary>Adds worked steps.</summary>
    public Verdict Worked(ImmutableArray<WorkedStep> steps) => this with { Steps = Steps.AddRange(steps) };

    /// <summary>Says it under another key, which then says it all.</summary>
    public Verdict Saying(string key) => this with { Says = key, Besides = [] };

    /// <summary>Puts a broken requirement into a tier of the rule set.</summary>
    public Verdict AtTier(string tier) => this with { Tier = tier };

    /// <summary>Names a limit that stands behind the verdict without being the one it is held against.</summary>
    public Verdict RestingOn(Limit limit) => this with { AlsoRestsOn = AlsoRestsOn.Add(limit) };

    private static int Rank(Verdict verdict) => verdict.Outcome switch
    {
        Outcome.NotMet => 3,
        Outcome.Undetermined => 2,
        Outcome.Met => 1,
        _ => 0,
    };

    private static bool IsCloser(Verdict a, Verdict b) =>
        a.Margin?.Quantity is { } left && b.Margin?.Quantity is { } right && left.QuantityInfo.Name == right.QuantityInfo.Name
            && Quantities.Compare(left, right) < 0;
}

/// <summary>A field of the plan, with the value that was found there.</summary>
/// <param name="Node">The part of the plan.</param>
/// <param name="Property">The property, by <c>nameof</c>.</param>
/// <param name="Value">The value; null where it is missing or not a single one.</param>
public sealed record FieldRef(PlanNode Node, string Property, Measure? Value = null)
{
    // Written once: it is compared, sorted by and reported. No part of what the reference is.
    private string? _path;

    /// <summary>The field's path in the plan.</summary>
    public string Path => _path ??= Node.PathOf(Property);

    /// <inheritdoc/>
    public bool Equals(FieldRef? other) => other is not null && ReferenceEquals(Node, other.Node) && Property == other.Property;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(Node), Property);
}
