namespace FoamRules.RuleSets.Declared;

/// <summary>How far a value is known.</summary>
internal enum State : byte
{
    /// <summary>It is known.</summary>
    Known = 0,

    /// <summary>It rests on a field that the plan does not give.</summary>
    Missing = 1,

    /// <summary>It cannot be worked out, as a division by zero.</summary>
    Failed = 2,
}

/// <summary>A value of a part of an expression.</summary>
/// <param name="result">The value; of no meaning where it is not known.</param>
/// <param name="state">How far it is known.</param>
internal readonly struct Value<T>(T result, State state = State.Known)
{
    // Fields, since compiled expressions read them.
    public readonly T Result = result;
    public readonly State State = state;
}

/// <summary>What compiled expressions do with values that are not all known.</summary>
internal static class Value
{
    /// <summary>The outcome of something that needs both of two values, one of which is not known.</summary>
    public static Value<T> UnknownBoth<T>(State a, State b) => new(default!, a == State.Missing || b == State.Missing ? State.Missing : State.Failed);

    /// <summary>The outcome of something that needs a value that is not known.</summary>
    public static Value<T> Unknown<T>(State state) => new(default!, state);

    /// <summary>A value that is known.</summary>
    public static Value<T> Known<T>(T result) => new(result);

    /// <summary>Both: false where one is false, whatever the other.</summary>
    public static Value<bool> And(Value<bool> a, Value<bool> b) => Join(a, b, false);

    /// <summary>Either: true where one is true, whatever the other.</summary>
    public static Value<bool> Or(Value<bool> a, Value<bool> b) => Join(a, b, true);

    private static Value<bool> Join(Value<bool> a, Value<bool> b, bool decides)
    {
        if ((a.State == State.Known && a.Result == decides) || (b.State == State.Known && b.Result == decides))
        {
            return new Value<bool>(decides);
        }

        return a.State == State.Known && b.State == State.Known ? new Value<bool>(!decides) : UnknownBoth<bool>(a.State, b.State);
    }
}
