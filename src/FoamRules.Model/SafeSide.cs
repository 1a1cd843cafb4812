using UnitsNet;

namespace FoamRules.Model;

/// <summary>
/// Values rounded to the safe side where people read them: a least value up, a greatest down, to the last digit that is shown. Times go to
/// what a clock tells: a least time to a tenth of a second or to the next five minutes, a greatest time to a tenth. What the rounding of a
/// sum leaves behind is no reason for another step.
/// </summary>
public static class SafeSide
{
    private const double Rest = 1e-6;
    private static readonly Duration ShownInSeconds = Duration.FromMinutes(2);

    /// <summary>A least value, rounded up.</summary>
    /// <param name="measure">The value.</param>
    public static Measure AtLeast(Measure measure) => measure.Quantity switch
    {
        Duration time when time < ShownInSeconds => Measure.Of(Duration.FromSeconds(Up(time.Seconds, 10))),
        Duration time => Measure.Of(Duration.FromMinutes(Math.Ceiling((time.Minutes / 5) - Rest) * 5)),
        { } quantity => Measure.AtLeast(quantity),
        _ => measure,
    };

    /// <summary>A greatest value, rounded down.</summary>
    /// <param name="measure">The value.</param>
    public static Measure AtMost(Measure measure) => measure.Quantity switch
    {
        Duration time when time < ShownInSeconds => Measure.Of(Duration.FromSeconds(Down(time.Seconds, 10))),
        Duration time => Measure.Of(Duration.FromMinutes(Down(time.Minutes, 10))),
        { } quantity => Measure.AtMost(quantity),
        _ => measure,
    };

    private static double Up(double number, double parts) => Math.Ceiling((number * parts) - Rest) / parts;

    private static double Down(double number, double parts) => Math.Floor((number * parts) + Rest) / parts;
}
