using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fill;

/// <summary>A value worked out of the plan, or why there is none: what is missing, or what a calculation refused.</summary>
/// <typeparam name="T">The type of the value.</typeparam>
public sealed class Derived<T>
{
    private readonly T? _value;

    private Derived(T? value, ImmutableArray<WorkedStep> steps, Verdict? gap)
    {
        _value = value;
        Steps = steps;
        Gap = gap;
    }

    /// <summary>Why there is no value, as an undetermined verdict; null where there is one.</summary>
    public Verdict? Gap { get; }

    /// <summary>The worked steps that lead to the value.</summary>
    public ImmutableArray<WorkedStep> Steps { get; }

    /// <summary>The value.</summary>
    /// <exception cref="InvalidOperationException">There is none; look at <see cref="Gap"/> first.</exception>
    public T Value => Gap is null ? _value! : throw new InvalidOperationException("there is no value");

    /// <summary>A value with the steps that lead to it.</summary>
    public static Derived<T> Of(T value, params ImmutableArray<WorkedStep> steps) => new(value, steps, null);

    /// <summary>No value, for the reason that a verdict gives.</summary>
    public static Derived<T> Without(Verdict gap) => new(default, [], gap);

    /// <summary>No value, because a field is missing.</summary>
    public static Derived<T> Missing(PlanNode node, string property) => Without(Verdict.Missing(node, property));

    /// <summary>What a calculation answers, after the steps that lead to its inputs.</summary>
    public static Derived<T> From(Calculated<T> calculated, params ImmutableArray<WorkedStep> before) =>
        calculated.HasValue ? Of(calculated.Value, before.AddRange(calculated.Steps)) : Without(Verdict.OutOfRange(calculated.Refusal!));
}

/// <summary>Joins the reasons why several values are not there.</summary>
public static class Gaps
{
    /// <summary>One verdict that names all that is missing; null where nothing is.</summary>
    public static Verdict? Of(params IEnumerable<Verdict?> gaps)
    {
        var found = gaps.OfType<Verdict>().ToList();
        return found.Count == 0 ? null : Verdict.Worst(found);
    }
}
