using UnitsNet;

namespace FoamRules.Model;

/// <summary>
/// One value that a reader sees: a physical quantity with its unit, a count, a date, an instant or a word.
/// The one type in which findings, evidence and worked steps carry their values.
/// </summary>
public sealed record Measure
{
    // One field for whatever it is: a report is made of tens of thousands of these.
    private readonly object _value;

    private Measure(object value, Phrase? phrase = null)
    {
        _value = value;
        Phrase = phrase;
    }

    /// <summary>The physical quantity (a UnitsNet type; a bare factor is a <see cref="Scalar"/>), or null.</summary>
    public IQuantity? Quantity => _value as IQuantity;

    /// <summary>A whole number of things, or null.</summary>
    public long? Count => _value as long?;

    /// <summary>A calendar date on site, or null.</summary>
    public DateOnly? Date => _value as DateOnly?;

    /// <summary>An instant with its offset, or null.</summary>
    public DateTimeOffset? Instant => _value as DateTimeOffset?;

    /// <summary>A word or a name from the plan, or null.</summary>
    public string? Text => _value as string;

    /// <summary>What the text is in each language, where the engine has made it; null for a name from the plan or a rule set's own word.</summary>
    public Phrase? Phrase { get; }

    /// <summary>How its text is rounded: to the nearest, or to the side that is enough.</summary>
    public MidpointRounding Shown { get; private init; } = MidpointRounding.AwayFromZero;

    /// <summary>A value that carries a physical quantity.</summary>
    public static Measure Of(IQuantity quantity) => new(quantity);

    /// <summary>The least that is enough: shown rounded up, so that who does what is shown does enough.</summary>
    public static Measure AtLeast(IQuantity quantity) => new(quantity) { Shown = MidpointRounding.ToPositiveInfinity };

    /// <summary>The most that is allowed, or that is sure: shown rounded down.</summary>
    public static Measure AtMost(IQuantity quantity) => new(quantity) { Shown = MidpointRounding.ToNegativeInfinity };

    /// <summary>A dimensionless factor, such as a mixing factor.</summary>
    public static Measure OfFactor(double factor) => new(new Scalar(factor, UnitsNet.Units.ScalarUnit.Amount));

    /// <summary>A whole number of things.</summary>
    public static Measure OfCount(long count) => new(count);

    /// <summary>A calendar date.</summary>
    public static Measure OfDate(DateOnly date) => new(date);

    /// <summary>An instant.</summary>
    public static Measure OfInstant(DateTimeOffset instant) => new(instant);

    /// <summary>A word or a name.</summary>
    public static Measure OfText(string text) => new(text);

    /// <summary>Words that the engine has made.</summary>
    public static Measure OfPhrase(Phrase phrase) => new(phrase.English, phrase);
}
