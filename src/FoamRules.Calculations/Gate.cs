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
