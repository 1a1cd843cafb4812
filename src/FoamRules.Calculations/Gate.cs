using System.Globalization;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>
/// Range checks at the door of a calculation. Each gives null when the value may pass, else the refusal that names the
/// range; written so that NaN never passes.
/// </summary>
internal static class Gate
{
    private const string NotPhysical = "a negative value has no physical meaning here";

    /// <summary>The first refusal of several checks, or null when all pass.</summary>
    public static Refusal? First(params ReadOnlySpan<Refusal?> refusals)
    {
        foreach (var refusal in refusals)
            if (refusal is not null)
                return refusal;
        return null;
    }

    public static Refusal? Positive(string input, IQuantity found, string why = NotPhysical) =>
        Above(input, found, (double)found.Value, 0, "more than 0", why);

    public static Refusal? NotNegative(string input, IQuantity found, string why = NotPhysical) =>
        AtLeast(input, found, (double)found.Value, 0, "0 or more", why);

    public static Refusal? AtLeastOne(string input, double found, string why) =>
        Number(input, found, 1, double.MaxValue, "1 or more", why);

    /// <summary>Refuses when <paramref name="holds"/> is false; a comparison with NaN is false, so NaN is refused too.</summary>
    public static Refusal? Require(bool holds, string input, Measure found, string allowed, string why) =>
        holds ? null : new Refusal(input, found, allowed, why);

    public static Refusal? AtLeast(string input, IQuantity found, double value, double low, string allowed, string why) =>
        value >= low && double.IsFinite(value) ? null : new Refusal(input, Measure.Of(found), allowed, why);

    public static Refusal? Above(string input, IQuantity found, double value, double low, string allowed, string why) =>
        value > low && double.IsFinite(value) ? null : new Refusal(input, Measure.Of(found), allowed, why);

    public static Refusal? Between(string input, IQuantity found, double value, double low, double high, string allowed, string why) =>
        value >= low && value <= high ? null : new Refusal(input, Measure.Of(found), allowed, why);

    public static Refusal? Inside(string input, IQuantity found, double value, double low, double high, string allowed, string why) =>
        value > low && value < high ? null : new Refusal(input, Measure.Of(found), allowed, why);

    /// <summary>A bare number; NaN and infinity cannot be carried by a quantity and are shown as words.</summary>
    public static Refusal? Number(string input, double value, double low, double high, string allowed, string why) =>
        value >= low && value <= high && double.IsFinite(value) ? null : new Refusal(input, Shown(value), allowed, why);

    public static Refusal? Count(string input, int value, int low, string allowed, string why) =>
        value >= low ? null : new Refusal(input, Measure.OfCount(value), allowed, why);

    public static Measure Shown(double value) =>
        double.IsFinite(value) ? Measure.OfFactor(value) : Measure.OfText(value.ToString(CultureInfo.InvariantCulture));
}
