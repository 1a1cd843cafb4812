using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>How much of something must be in the price, or what is missing for it. Nothing is guessed.</summary>
internal sealed record PriceQuantity
{
    /// <summary>The amount; null where it is not known.</summary>
    public Measure? Amount { get; init; }

    /// <summary>True where it is only the least that is needed.</summary>
    public bool AtLeast { get; init; }

    /// <summary>The way in which it was worked out: a key of the line's <c>how</c>; null where nothing of it is known.</summary>
    public string? Way { get; init; } = "";

    /// <summary>What is missing: for the amount itself, or for more than its least.</summary>
    public ImmutableArray<FieldRef> Missing { get; init; } = [];

    /// <summary>The worked steps.</summary>
    public ImmutableArray<WorkedStep> Steps { get; init; } = [];

    /// <summary>Values for the placeholders of the words.</summary>
    public ImmutableDictionary<string, Measure> Words { get; init; } = ImmutableDictionary<string, Measure>.Empty;

    /// <summary>A known amount.</summary>
    public static PriceQuantity Of(IQuantity amount) => new() { Amount = Measure.Of(amount) };

    /// <summary>A known number of things.</summary>
    public static PriceQuantity Of(long count) => new() { Amount = Measure.OfCount(count) };

    /// <summary>An amount that is not known, because of what is missing.</summary>
    public static PriceQuantity Unknown(params IEnumerable<FieldRef> missing) => new() { Way = null, Missing = [.. missing] };

    /// <summary>An amount that is not known, for the reason that a verdict gives.</summary>
    public static PriceQuantity Unknown(Verdict gap) => new() { Way = null, Missing = gap.MissingFields, Words = gap.Words };

    /// <summary>Says that more may be needed, where something is missing.</summary>
    public PriceQuantity WithOpen(params IEnumerable<FieldRef> missing)
    {
        ImmutableArray<FieldRef> open = [.. missing];
        return open.IsEmpty ? this : this with { AtLeast = true, Missing = open };
    }

    /// <summary>Says by which way it was worked out.</summary>
    public PriceQuantity By(string way) => this with { Way = way };

    /// <summary>Adds the worked steps.</summary>
    public PriceQuantity Worked(ImmutableArray<WorkedStep> steps) => this with { Steps = steps };

    /// <summary>Adds a value for a placeholder.</summary>
    public PriceQuantity With(string word, Measure value) => this with { Words = Words.SetItem(word, value) };

    /// <summary>Adds a quantity for a placeholder.</summary>
    public PriceQuantity With(string word, IQuantity value) => With(word, Measure.Of(value));

    /// <summary>Adds a text for a placeholder.</summary>
    public PriceQuantity With(string word, string value) => With(word, Measure.OfText(value));

    /// <summary>Adds a number for a placeholder.</summary>
    public PriceQuantity With(string word, long value) => With(word, Measure.OfCount(value));
}
