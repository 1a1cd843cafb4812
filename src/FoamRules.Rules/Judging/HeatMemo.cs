using FoamRules.Calculations;
using FoamRules.Model;

namespace FoamRules.Rules.Judging;

/// <summary>
/// Heat that was worked out before is not worked out again: the same passes stand in many items of a plan, several requirements ask for
/// them, and a plan is checked again and again. The calculations are pure, so a remembered result is the result.
/// </summary>
internal static class HeatMemo
{
    private static readonly Remembered<PassHeatCase, Calculated<PassHeatResult>> Passes = new(plan => PassHeat.Simulate(plan));
    private static readonly Remembered<PourHeatCase, Calculated<PourHeatResult>> Pours = new(PourHeat.Cool);

    /// <summary>The heat in passes.</summary>
    public static Calculated<PassHeatResult> Of(PassHeatCase plan) => Passes.Of(plan);

    /// <summary>The heat in a pour.</summary>
    public static Calculated<PourHeatResult> Of(PourHeatCase pour) => Pours.Of(pour);
}
