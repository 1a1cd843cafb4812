using System.Collections.Immutable;
using System.Linq.Expressions;

namespace FoamRules.RuleSets.Declared;

/// <summary>An expression that says yes or no, bound to names and types. It holds no state of an evaluation and can serve many at once.</summary>
public sealed class Condition
{
    // Compiling one takes as long as thousands of evaluations by the interpreter, and a command that checks one plan asks each a
    // few times: only what is asked often is compiled.
    private const int OftenAsked = 64;

    private readonly Expression<Func<Frame, Value<bool>>> _expression;
    private readonly Lazy<Func<Frame, Value<bool>>> _interpreted, _compiled;
    private int _asked;

    private Condition(Expression<Func<Frame, Value<bool>>> expression, Limit? against, ImmutableArray<Limit> limits)
    {
        _expression = expression;
        _interpreted = new(() => _expression.Compile(preferInterpretation: true));
        _compiled = new(() => _expression.Compile());
        Against = against;
        Limits = limits;
    }

    /// <summary>The limit that it holds one field against; null where it is more than that.</summary>
    public Limit? Against { get; }

    /// <summary>All limits that it names.</summary>
    public ImmutableArray<Limit> Limits { get; }

    /// <summary>What it says of a plan.</summary>
    /// <param name="input">What it looks at.</param>
    /// <exception cref="InvalidOperationException">It looks at more entries of lists than it may.</exception>
    public ExpressionAnswer Ask(ExpressionInput input)
    {
        var frame = new Frame(input);
        var often = _compiled.IsValueCreated || Interlocked.Increment(ref _asked) > OftenAsked;
        return new ExpressionAnswer((often ? _compiled : _interpreted).Value(frame), frame);
    }

    internal static Condition Compile(Syntax syntax, ExpressionScope scope)
    {
        var binder = new Binder(scope);
        return Compile(binder, binder.Condition(syntax), null);
    }

    /// <summary>Compiles a part of what must hold. A field that it holds against a limit must lie on the side that the limit asks.</summary>
    internal static Condition CompilePart(Syntax syntax, ExpressionScope scope)
    {
        var binder = new Binder(scope);
        var bound = binder.Condition(syntax);
        var against = bound.Against is { Limit.Tighter: Tighter.Lower or Tighter.Higher } field ? field : null;
        if (against is not null && (against.Limit.Tighter == Tighter.Lower) != (against.Sign[0] == '<'))
        {
            var asked = against.Limit.Tighter == Tighter.Lower ? "at most" : "at least";
            throw new ExpressionException(bound.At, $"a field that must lie beyond {against.Limit.Name}, which asks {asked}", asked, "turn the comparison round, or the limit");
        }

        return Compile(binder, bound, against?.Limit);
    }

    private static Condition Compile(Binder binder, Bound bound, Limit? against) =>
        new(Expression.Lambda<Func<Frame, Value<bool>>>(bound.Code, binder.Frame), against, [.. binder.Limits]);
}

/// <summary>What a condition says of a plan, and what it rests on.</summary>
public readonly struct ExpressionAnswer
{
    private readonly Value<bool> _value;
    private readonly Frame _frame;

    internal ExpressionAnswer(Value<bool> value, Frame frame)
    {
        _value = value;
        _frame = frame;
    }

    /// <summary>Yes or no; null where a field is missing, or where it cannot be worked out.</summary>
    public bool? Holds => _value.State == State.Known ? _value.Result : null;

    /// <summary>Why it cannot be worked out; null where it can.</summary>
    public string? Failure => _value.State == State.Failed ? _frame.Failure : null;

    /// <summary>The fields that it has looked at.</summary>
    public IReadOnlyList<FieldRead> Reads => _frame.Reads;

    /// <summary>The fields that are missing; empty where it says yes or no.</summary>
    public IReadOnlyList<FieldRead> Missing => _value.State == State.Missing ? _frame.Missing : [];
}
