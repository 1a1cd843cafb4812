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
        var known = note && number.Note.Length > 0 ? $"{at.Words.Semicolon}{number.Note}" : "";
        return new ReportEntry($"{at.Words.Of(number.Subject)}{at.Words.Colon}{number.Name}{Aim(at, number)}{Range(at, number)}{known}");
    }

    private static string Aim(Arrangement at, Number number) => (number.Aim, number.Low, number.High) switch
    {
        (null, _, _) => "",
        // A mass is material to have: the least that does.
        ({ Quantity: Mass } mass, _, _) => $" {at.Show(SafeSide.AtLeast(mass))}",
        ({ Quantity: Duration aim }, { } low, { } high) when IsNarrow(low, high) => $" {Seconds(aim)}",
        ({ Quantity: Duration aim }, { Quantity: Duration } low, { Quantity: Duration } high) => $" {at.Show(Measure.Of(Between(aim, low, high)))}",
        ({ } aim, _, _) => $" {at.Show(aim)}",
    };

    private static string Range(Arrangement at, Number number) => (number.Low, number.High) switch
    {
        // Narrower than a tenth of a second: no rounding is safe on both sides, so the ends are shown as they are.
        ({ Quantity: Duration least } low, { Quantity: Duration most } high) when IsNarrow(low, high) =>
            at.Words["range-narrow", ("low", Seconds(least)), ("high", Seconds(most))],
        ({ Quantity: { } least and not Duration }, { Quantity: { } most }) when MeasureText.ShowRange(least, most, at.Report.Units, at.Words.Style(at.Report)) is var (low, high) =>
            at.Words["range", ("low", low), ("high", high)],
        ({ } low, { } high) => at.Words["range", ("low", at.Show(SafeSide.AtLeast(low))), ("high", at.Show(SafeSide.AtMost(high)))],
        ({ } low, null) => at.Words["range-from", ("low", at.Show(SafeSide.AtLeast(low)))],
        (null, { } high) => at.Words["range-to", ("high", at.Show(SafeSide.AtMost(high)))],
        _ => "",
    } is { Length: > 0 } range ? $" ({range})" : "";

    private static bool IsNarrow(Measure low, Measure high) =>
        (SafeSide.AtLeast(low).Quantity, SafeSide.AtMost(high).Quantity) is (Duration least, Duration most) && least > most;

    // What is aimed at must not be rounded out of the range that stands behind it.
    private static Duration Between(Duration aim, Measure low, Measure high)
    {
        var (least, most) = ((Duration)SafeSide.AtLeast(low).Quantity!, (Duration)SafeSide.AtMost(high).Quantity!);
        return aim < least ? least : aim > most ? most : aim;
    }

    private static string Seconds(Duration time) => time.Seconds.ToString("0.000", CultureInfo.InvariantCulture) + " s";
}
