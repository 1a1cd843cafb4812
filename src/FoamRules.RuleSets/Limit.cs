using System.Collections.Immutable;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.RuleSets;

/// <summary>Which change of a value makes a rule set tighter.</summary>
public enum Tighter
{
    /// <summary>A lower value: the limit reads "at most".</summary>
    Lower = 1,

    /// <summary>A higher value: the limit reads "at least".</summary>
    Higher = 2,

    /// <summary>Fewer words: the limit is a list of what is allowed.</summary>
    Fewer = 3,

    /// <summary>Neither: the value is a plain parameter.</summary>
    Neither = 4,
}

/// <summary>One number of a rule set, in its source's own unit, with the source that it comes from.</summary>
public sealed record Limit
{
    /// <summary>Its name in the requirement.</summary>
    public required string Name { get; init; }

    /// <summary>The value: a quantity, a count, a factor or a date; a word list has its words in <see cref="Words"/>.</summary>
    public required Measure Value { get; init; }

    /// <summary>The value that the source prints as an alternative in another unit; either satisfies. Null where it prints one.</summary>
    public Measure? Or { get; init; }

    /// <summary>The words that are allowed, for a list.</summary>
    public ImmutableArray<string> Words { get; init; } = [];

    /// <summary>Which change is tighter.</summary>
    public required Tighter Tighter { get; init; }

    /// <summary>The source.</summary>
    public required Source Source { get; init; }

    /// <summary>The rule set that decided, or "data sheet".</summary>
    public required string Layer { get; init; }

    /// <summary>The authority by which this layer relaxes the layer below; null where it does not.</summary>
    public string? RelaxedBy { get; init; }

    /// <summary>
    /// What its document allows by it: its own name where it is one of several alternatives, such as a material on a list of barriers;
    /// the group's name where the group's limits are together the conditions of one exception; null where it restricts. Where more
    /// than one edition of the document stands, only what all of them allow counts.
    /// </summary>
    public string? Allows { get; init; }

    /// <summary>True where it stands whatever a looser data sheet allows, as a law does; else the data sheet governs where it gives a limit.</summary>
    public bool StandsOverSheet { get; init; }

    /// <summary>True for one of <see cref="Below"/> in whose place a relaxation stands.</summary>
    public bool IsOverruled { get; init; }

    /// <summary>What the other layers said of it, the lowest first.</summary>
    public ImmutableArray<Limit> Below { get; init; } = [];

    /// <summary>True where its value is no written figure but follows from one, and is shown rounded to the side on which it is kept.</summary>
    public bool IsWorkedOut => Value.Shown != MidpointRounding.AwayFromZero;

    /// <summary>Which side is met.</summary>
    public LimitDirection Direction => Tighter == Tighter.Higher ? LimitDirection.AtLeast : LimitDirection.AtMost;

    /// <summary>Where the limit stands, for messages; null for a limit of a data sheet.</summary>
    public Violation? Place { get; init; }

    /// <summary>The value as a quantity of the type that a requirement works with.</summary>
    /// <exception cref="InvalidOperationException">The rule set gives another kind of value; found at start, never in a check.</exception>
    public T As<T>()
        where T : struct, IQuantity =>
        Value.Quantity is T quantity ? quantity : throw new InvalidOperationException($"limit {Name} of {Layer} is not a {typeof(T).Name}");

    /// <summary>The value as a factor.</summary>
    /// <exception cref="InvalidOperationException">The rule set gives another kind of value.</exception>
    public double Factor => Value.Quantity is Scalar scalar ? scalar.Amount : throw new InvalidOperationException($"limit {Name} of {Layer} is not a factor");

    /// <summary>The value as a count.</summary>
    /// <exception cref="InvalidOperationException">The rule set gives another kind of value.</exception>
    public long Count => Value.Count ?? throw new InvalidOperationException($"limit {Name} of {Layer} is not a count");

    /// <summary>The value as a date.</summary>
    /// <exception cref="InvalidOperationException">The rule set gives another kind of value.</exception>
    public DateOnly Date => Value.Date ?? throw new InvalidOperationException($"limit {Name} of {Layer} is not a date");

    /// <summary>The limit at the value that it comes to here, such as a mass worked out of a share; shown rounded to the side on which it is kept.</summary>
    /// <param name="value">The value.</param>
    /// <param name="tighter">Which change of that value is tighter; null: as of the limit itself.</param>
    public Limit Amounting(IQuantity value, Tighter? tighter = null) =>
        this with { Value = (tighter ?? Tighter) == Tighter.Higher ? Measure.AtLeast(value) : Measure.AtMost(value), Or = null, Tighter = tighter ?? Tighter };

    /// <summary>True when this limit is at least as tight as another of the same name.</summary>
    public bool IsAtLeastAsTightAs(Limit other) => Tighter switch
    {
        Tighter.Fewer => Words.All(other.Words.Contains),
        Tighter.Lower => Compare(other) <= 0,
        Tighter.Higher => Compare(other) >= 0,
        _ => Compare(other) == 0,
    };

    /// <summary>True when both have values that can be compared.</summary>
    public bool IsComparableWith(Limit other) =>
        Tighter == other.Tighter
        && Value.Quantity?.QuantityInfo.Name == other.Value.Quantity?.QuantityInfo.Name
        && Value.Count.HasValue == other.Value.Count.HasValue
        && Value.Date.HasValue == other.Value.Date.HasValue
        && Words.IsEmpty == other.Words.IsEmpty;

    /// <summary>Whether a value keeps the limit; null where that cannot be told, as of a word or of another kind of value.</summary>
    public bool? IsKeptBy(Measure? value)
    {
        if (value is null || Tighter is not (Tighter.Lower or Tighter.Higher))
        {
            return null;
        }

        var order = value.Count is { } count && Value.Count is { } most ? count.CompareTo(most)
            : value.Date is { } date && Value.Date is { } day ? date.CompareTo(day)
            : value.Quantity is { } found && Loosest is { } limit && found.QuantityInfo.Name == limit.QuantityInfo.Name ? Quantities.Compare(found, limit)
            : (int?)null;
        return order is null ? null : Tighter == Tighter.Lower ? order <= 0 : order >= 0;
    }

    // Where a source prints two units either satisfies, so the looser of them is what the limit asks.
    private IQuantity? Loosest => Or?.Quantity is { } or && (Quantities.Compare(or, Value.Quantity!) > 0) == (Tighter == Tighter.Lower) ? or : Value.Quantity;

    private int Compare(Limit other)
    {
        if (Value.Count is { } count)
        {
            return count.CompareTo(other.Value.Count);
        }

        if (Value.Date is { } date)
        {
            return date.CompareTo(other.Value.Date!.Value);
        }

        return Quantities.Compare(Loosest!, other.Loosest!);
    }
}
