using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>Lists of compiled expressions.</summary>
internal static class Lists
{
    /// <summary>A list of values that are all known.</summary>
    public static Value<T[]> Gather<T>(params Value<T>[] items)
    {
        var worst = State.Known;
        foreach (var item in items)
        {
            worst = Worse(worst, item.State);
        }

        return worst == State.Known ? new Value<T[]>(Array.ConvertAll(items, item => item.Result)) : Value.Unknown<T[]>(worst);
    }

    public static Value<T> At<T>(Frame frame, T[] items, long index) =>
        index >= 0 && index < items.Length ? new Value<T>(items[index]) : frame.Fail<T>($"entry {index} of a list of {items.Length}");

    public static bool Has<T>(T[] items, T value) => Array.IndexOf(items, value) >= 0 && value is not double.NaN;

    public static bool HasQuantity(double[] items, double value) => Array.Exists(items, item => Quantities.CompareInBase(item, value) == 0);

    public static bool AreEqual<T>(T[] a, T[] b) => a.AsSpan().SequenceEqual(b);

    public static T[] Join<T>(T[] a, T[] b) => [.. a, .. b];

    public static long Size<T>(T[] items) => items.Length;

    /// <summary>The one of two states that counts for both.</summary>
    public static State Worse(State a, State b) => a == State.Missing || b == State.Missing ? State.Missing : a == State.Known ? b : a;
}
