using UnitsNet;

namespace FoamRules.Model;

/// <summary>
/// Times and masses rounded to the safe side where people read them: a least time up, to a tenth of a second or to the next five minutes; a
/// greatest time down, to a tenth; a least mass up and a greatest down, to the last digit that is shown. Other values stay as they are. What
/// the rounding of a sum leaves behind is no reason for another step.
/// </summary>
public static class SafeSide
{
    private const double Rest = 1e-6;
    private static readonly Duration ShownInSeconds = Duration.FromMinutes(2);
    private static readonly Mass ShownInGrams = Mass.FromKilograms(0.1);

    /// <summary>A least value, rounded up.</summary>
    /// <param name="measure">The value.</param>
    /// <param name="units">The units in which it is shown.</param>
    public static Measure AtLeast(Measure measure, DisplayUnits units) => measure.Quantity switch
    {
        Duration time when time < ShownInSeconds => Measure.Of(Duration.FromSeconds(Up(time.Seconds, 10))),
        Duration time => Measure.Of(Duration.FromMinutes(Math.Ceiling((time.Minutes / 5) - Rest) * 5)),
        Mass mass => Measure.Of(Rounded(mass, units, Up)),
        _ => measure,
    };

    /// <summary>A greatest value, rounded down.</summary>
    /// <param name="measure">The value.</param>
    /// <param name="units">The units in which it is shown.</param>
    public static Measure AtMost(Measure measure, DisplayUnits units) => measure.Quantity switch
    {
        Duration time when time < ShownInSeconds => Measure.Of(Duration.FromSeconds(Down(time.Seconds, 10))),
        Duration time => Measure.Of(Duration.FromMinutes(Down(time.Minutes, 10))),
        Mass mass => Measure.Of(Rounded(mass, units, Down)),
        _ => measure,
    };

    // To the hundredth of a pound or of a kilogram, and to the gram below a tenth of one: as MeasureText shows them.
    private static Mass Rounded(Mass mass, DisplayUnits units, Func<double, double, double> to) =>
        units == DisplayUnits.Us ? Mass.FromPounds(to(mass.Pounds, 100))
        : mass < ShownInGrams ? Mass.FromGrams(to(mass.Grams, 1))
        : Mass.FromKilograms(to(mass.Kilograms, 100));

    private static double Up(double number, double parts) => Math.Ceiling((number * parts) - Rest) / parts;

    private static double Down(double number, double parts) => Math.Floor((number * parts) + Rest) / parts;
}
