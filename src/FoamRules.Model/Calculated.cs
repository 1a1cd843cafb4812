using System.Collections.Immutable;

namespace FoamRules.Model;

/// <summary>One named input of a worked step.</summary>
/// <param name="Symbol">The symbol used in the formula, such as <c>V</c>.</param>
/// <param name="Meaning">What it stands for, such as "void volume".</param>
/// <param name="Value">Its value with its unit.</param>
public sealed record Term(string Symbol, string Meaning, Measure Value);

/// <summary>One line of a calculation that a person can follow by hand.</summary>
/// <param name="Name">What is worked out, such as "minimum fill mass".</param>
/// <param name="Formula">The formula in plain characters, such as <c>m = V × ρ × f</c>.</param>
/// <param name="Inputs">Each symbol of the formula with its value.</param>
/// <param name="Result">The value that comes out, unrounded.</param>
/// <param name="Source">Document, edition and section that the formula comes from, and how it is known.</param>
public sealed record WorkedStep(string Name, string Formula, ImmutableArray<Term> Inputs, Measure Result, string Source);

/// <summary>
/// What a calculation answers: a value with its worked steps, or a refusal that names the range. Never an extrapolation.
/// </summary>
/// <typeparam name="T">The type of the value.</typeparam>
public sealed class Calculated<T>
{
    private readonly T? _value;

    private Calculated(T? value, ImmutableArray<WorkedStep> steps, Refusal? refusal)
    {
        _value = value;
        Steps = steps;
        Refusal = refusal;
    }

    /// <summary>The worked steps that lead to the value; empty after a refusal.</summary>
    public ImmutableArray<WorkedStep> Steps { get; }

    /// <summary>Why there is no value, or null when there is one.</summary>
    public Refusal? Refusal { get; }

    /// <summary>True when there is a value.</summary>
    public bool HasValue => Refusal is null;

    /// <summary>The value.</summary>
    /// <exception cref="InvalidOperationException">The calculation was refused; look at <see cref="Refusal"/> first.</exception>
    public T Value => Refusal is null ? _value! : throw new InvalidOperationException($"refused: {Refusal.Input} must be {Refusal.Allowed}");

    /// <summary>A value and the steps that lead to it.</summary>
    public static Calculated<T> From(T value, params ImmutableArray<WorkedStep> steps) => new(value, steps, null);

    /// <summary>No value, because an input is outside the formula's range.</summary>
    public static Calculated<T> Refuse(Said input, Measure found, string allowed, Said why) =>
        new(default, [], new Refusal(input, found, allowed, why));

    /// <summary>No value, for the reason that another calculation gave none.</summary>
    public static Calculated<T> Refuse(Refusal refusal) => new(default, [], refusal);
}
