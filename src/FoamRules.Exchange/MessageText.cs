using System.Globalization;
using FoamRules.Model;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange;

/// <summary>Values of messages as people read them.</summary>
public static class MessageText
{
    private const int Digits = 6;

    /// <summary>A single value; null for a message that has fields of its own.</summary>
    /// <param name="value">The value.</param>
    /// <param name="field">Its field.</param>
    /// <param name="units">The unit system.</param>
    public static string? Show(object value, FieldDescriptor field, DisplayUnits units) => value switch
    {
        Contract.Measure measure => MeasureText.Show(ReportMapper.MeasureOf(measure), units),
        IMessage message when QuantityMap.IsQuantity(message.Descriptor) => QuantityMap.Read(message) is { } quantity ? MeasureText.Show(quantity, units) : "",
        IMessage => null,
        bool yes => yes ? "yes" : "no",
        double number => Number(number),
        Enum name => field.EnumType.FindValueByNumber(Convert.ToInt32(name, CultureInfo.InvariantCulture)) is { Number: not 0 } known ? EnumNames.Short(field.EnumType, known.Name).Replace('-', ' ') : "",
        _ => Convert.ToString(value, CultureInfo.InvariantCulture),
    };

    // Six digits that count, without an exponent where a person would not write one.
    private static string Number(double number)
    {
        if (number == 0 || !double.IsFinite(number))
        {
            return number.ToString(CultureInfo.InvariantCulture);
        }

        var decimals = Digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(number)));
        return decimals is < -3 or > 12
            ? number.ToString("G" + Digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)
            : Math.Round(number, Math.Max(0, decimals)).ToString("0.############", CultureInfo.InvariantCulture);
    }
}
