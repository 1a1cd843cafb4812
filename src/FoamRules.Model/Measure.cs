using UnitsNet;

namespace FoamRules.Model;

/// <summary>
/// One value that a reader sees: a physical quantity with its unit, a count, a date, an instant or a word.
/// The one type in which findings, evidence and worked steps carry their values.
/// </summary>
public sealed record Measure
{
    private Measure()
    {
    }

    /// <summary>The physical quantity (a UnitsNet type; a bare factor is a <see cref="Scalar"/>), or null.</summary>
    public IQuantity? Quantity { get; private init; }

    /// <summary>A whole number of things, or null.</summary>
    public long? Count { get; private init; }

    /// <summary>A calendar date on site, or null.</summary>
    public DateOnly? Date { get; private init; }

    /// <summary>An instant with its offset, or null.</summary>
    public DateTimeOffset? Instant { get; private init; }

    /// <summary>A word or a name from the plan, or null.</summary>
    public string? Text { get; private init; }

    /// <summary>What the text is in each language, where the engine has made it; null for a name from the plan or a rule set's own word.</summary>
    public Phrase? Phrase { get; private init; }

    /// <summary>A value that carries a physical quantity.</summary>
    public static Measure Of(IQuantity quantity) => new() { Quantity = quantity };

    /// <summary>A dimensionless factor, such as a mixing factor.</summary>
    public static Measure OfFactor(double factor) => new() { Quantity = new Scalar(factor, UnitsNet.Units.ScalarUnit.Amount) };

    /// <summary>A whole number of things.</summary>
    public static Measure OfCount(long count) => new() { Count = count };

    /// <summary>A calendar date.</summary>
    public static Measure OfDate(DateOnly date) => new() { Date = date };

    /// <summary>An instant.</summary>
    public static Measure OfInstant(DateTimeOffset instant) => new() { Instant = instant };

    /// <summary>A word or a name.</summary>
    public static Measure OfText(string text) => new() { Text = text };

    /// <summary>Words that the engine has made.</summary>
    public static Measure OfPhrase(Phrase phrase) => new() { Text = phrase.English, Phrase = phrase };
}
