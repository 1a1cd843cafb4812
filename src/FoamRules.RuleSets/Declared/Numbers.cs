namespace FoamRules.RuleSets.Declared;

/// <summary>Arithmetic of compiled expressions. What has no result fails, and says why.</summary>
internal static class Numbers
{
    /// <summary>The longest time that arithmetic gives: 64 bits of nanoseconds, as elsewhere in the language.</summary>
    public const double LongestSeconds = long.MaxValue / 1e9;

    private const string TooLarge = "a result is too large";

    public static Value<long> Add(Frame frame, long a, long b) => Fit(frame, (Int128)a + b);

    public static Value<long> Subtract(Frame frame, long a, long b) => Fit(frame, (Int128)a - b);

    public static Value<long> Multiply(Frame frame, long a, long b) => Fit(frame, (Int128)a * b);

    public static Value<long> Divide(Frame frame, long a, long b) => b == 0 ? frame.Fail<long>("a division by zero") : Fit(frame, (Int128)a / b);

    public static Value<long> Remainder(Frame frame, long a, long b) => b == 0 ? frame.Fail<long>("a division by zero") : Fit(frame, (Int128)a % b);

    public static Value<long> Negate(Frame frame, long a) => Fit(frame, -(Int128)a);

    public static Value<double> Checked(Frame frame, double value, double most) =>
        Math.Abs(value) <= most ? new Value<double>(value) : frame.Fail<double>(double.IsFinite(value) ? TooLarge : "a division by zero, or a result that is too large");

    public static Value<long> Truncate(Frame frame, double value) =>
        value > long.MinValue && value < -(double)long.MinValue ? new Value<long>((long)value) : frame.Fail<long>("a number that is too large to be a whole number");

    /// <summary>How a whole number stands to another number: negative, zero or positive; not a number where that one is none.</summary>
    public static double Order(long a, double b)
    {
        if (double.IsNaN(b))
        {
            return double.NaN;
        }

        if (b >= -(double)long.MinValue || b < long.MinValue)
        {
            return b > 0 ? -1 : 1;
        }

        var whole = Math.Truncate(b);
        var order = a.CompareTo((long)whole);
        return order != 0 ? order : whole.CompareTo(b);
    }

    private static Value<long> Fit(Frame frame, Int128 value) =>
        value >= long.MinValue && value <= long.MaxValue ? new Value<long>((long)value) : frame.Fail<long>(TooLarge);
}
