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
    private static readonly Said NotPhysical = "a negative value has no physical meaning here";

    /// <summary>The first refusal of several checks, or null when all pass.</summary>
    public static Refusal? First(params ReadOnlySpan<Refusal?> refusals)
    {
        foreach (var refusal in refusals)
            if (refusal is not null)
                return refusal;
        return null;
    }

    public static Refusal? Positive(Said input, IQuantity found, Said? why = null) =>
        Above(input, found, (double)found.Value, 0, "more than 0", why ?? NotPhysical);

    public static Refusal? NotNegative(Said input, IQuantity found, Said? why = null) =>
        AtLeast(input, found, (double)found.Value, 0, "0 or more", why ?? NotPhysical);

    public static Refusal? AtLeastOne(Said input, double found, Said why) =>
        Number(input, found, 1, double.MaxValue, "1 or more", why);

    /// <summary>Refuses when <paramref name="holds"/> is false; a comparison with NaN is false, so NaN is refused too.</summary>
    public static Refusal? Require(bool holds, Said input, Measure found, string allowed, Said why) =>
        holds ? null : new Refusal(input, found, allowed, why);

    public static Refusal? AtLeast(Said input, IQuantity found, double value, double low, string allowed, Said why) =>
        value >= low && double.IsFinite(value) ? null : new Refusal(input, Measure.Of(found), allowed, why);

    public static Refusal? Above(Said input, IQuantity found, double value, double low, string allowed, Said why) =>
        value > low && double.IsFinite(value) ? null : new Refusal(input, Measure.Of(found), allowed, why);

    public static Refusal? Between(Said input, IQuantity found, double value, double low, double high, string allowed, Said why) =>
        value >= low && value <= high ? null : new Refusal(input, Measure.Of(found), allowed, why);

    public static Refusal? Inside(Said input, IQuantity found, double value, double low, double high, string allowed, Said why) =>
        value > low && value < high ? null : new Refusal(input, Measure.Of(found), allowed, why);

    /// <summary>A bare number; NaN and infinity cannot be carried by a quantity and are shown as words.</summary>
    public static Refusal? Number(Said input, double value, double low, double high, string allowed, Said why) =>
        value >= low && value <= high && double.IsFinite(value) ? null : new Refusal(input, Shown(value), allowed, why);

    public static Refusal? Count(Said input, int value, int low, string allowed, Said why) =>
        value >= low ? null : new Refusal(input, Measure.OfCount(value), allowed, why);

    public static Measure Shown(double value) =>
        double.IsFinite(value) ? Measure.OfFactor(value) : Measure.OfText(value.ToString(CultureInfo.InvariantCulture));
}
