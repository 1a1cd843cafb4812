using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>Rounds times for people, to the safe side: waits up, longest allowed durations down.</summary>
internal static class Rounding
{
    // A wait of exactly 15 min that came in as hours must not become 16 min.
    private const double Slack = 1e-9;

    public static Duration Up(Duration wait, Duration step) => step.Seconds > 0
        ? Duration.FromSeconds(Math.Ceiling(wait.Seconds / step.Seconds - Slack) * step.Seconds)
        : wait;

    public static Duration Down(Duration longest, Duration step) => step.Seconds > 0
        ? Duration.FromSeconds(Math.Floor(longest.Seconds / step.Seconds + Slack) * step.Seconds)
        : longest;
}
