using UnitsNet;

namespace FoamRules.Model;

/// <summary>
/// Times rounded to the safe side where people read them: a least time up, to a tenth of a second or to the next five minutes; a greatest
/// time down, to a tenth. Other values stay as they are. What the rounding of a sum leaves behind is no reason for another step.
/// </summary>
public static class SafeSide
{
    private const double Rest = 1e-6;
    private static readonly Duration ShownInSeconds = Duration.FromMinutes(2);

    /// <summary>A least time, rounded up.</summary>
    public static Measure AtLeast(Measure measure) => measure.Quantity is not Duration time ? measure
        : Measure.Of(time < ShownInSeconds ? Duration.FromSeconds(Math.Ceiling((time.Seconds * 10) - Rest) / 10) : Duration.FromMinutes(Math.Ceiling((time.Minutes / 5) - Rest) * 5));

    /// <summary>A greatest time, rounded down.</summary>
    public static Measure AtMost(Measure measure) => measure.Quantity is not Duration time ? measure
        : Measure.Of(time < ShownInSeconds ? Duration.FromSeconds(Math.Floor((time.Seconds * 10) + Rest) / 10) : Duration.FromMinutes(Math.Floor((time.Minutes * 10) + Rest) / 10));
}
