using System.Globalization;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Readings;

/// <summary>Today's numbers as lines, rounded to the safe side.</summary>
internal static class NumberEntries
{
    /// <summary>A number in one line.</summary>
    /// <param name="at">The report that is arranged.</param>
    /// <param name="number">The number.</param>
    /// <param name="note">With what to know about it.</param>
    public static ReportEntry Of(Arrangement at, Number number, bool note)
    {
        // A mass is material to have: the least that does.
        var aim = number.Aim is { } value ? $" {at.Show(value.Quantity is Mass ? at.AtLeast(value) : value)}" : "";
        var known = note && number.Note.Length > 0 ? $"; {number.Note}" : "";
        return new ReportEntry($"{at.Words.Of(number.Subject)}{at.Words.Colon}{number.Name}{aim}{Range(at, number)}{known}");
    }

    private static string Range(Arrangement at, Number number) => (number.Low, number.High) switch
    {
        // Narrower than a tenth of a second: no rounding is safe on both sides, so the ends are shown as they are.
        ({ Quantity: Duration least } low, { Quantity: Duration most } high) when (Duration)at.AtLeast(low).Quantity! > (Duration)at.AtMost(high).Quantity! =>
            at.Words["range-narrow", ("low", Seconds(least)), ("high", Seconds(most))],
        ({ } low, { } high) => at.Words["range", ("low", at.Show(at.AtLeast(low))), ("high", at.Show(at.AtMost(high)))],
        ({ } low, null) => at.Words["range-from", ("low", at.Show(at.AtLeast(low)))],
        (null, { } high) => at.Words["range-to", ("high", at.Show(at.AtMost(high)))],
        _ => "",
    } is { Length: > 0 } range ? $" ({range})" : "";

    private static string Seconds(Duration time) => time.Seconds.ToString("0.000", CultureInfo.InvariantCulture) + " s";
}
