using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>
/// The heat in planned passes (calculations 4.3 and 4.4): what lies behind them by its substrate, the air by its readings, the
/// foam by its sheet. The passes, their waits and the substrate must be known.
/// </summary>
internal sealed class SprayHeat(SprayFacts bearer, HeatParameters heat)
{
    // As far as the calculation looks. A longer wait only cools more.
    private static readonly Duration Horizon = Duration.FromDays(14), LongestWait = Duration.FromDays(1);

    private readonly ThermalProperties _foam = heat.FoamOf(bearer.Sheet, FoamKind.ClosedCellSpray);
    private readonly Temperature _air = heat.AirOf(bearer.Area), _mix = heat.MixOf(bearer.Job.Gear);

    /// <summary>What is missing to follow the first of the passes; nothing where all is given.</summary>
    /// <param name="bearer">The spray application.</param>
    /// <param name="count">How many passes.</param>
    public static IEnumerable<FieldRef> Unknown(SprayFacts bearer, int count)
    {
        foreach (var (pass, index) in bearer.Spray.Passes.Take(count).Select((pass, index) => (pass, index)))
        {
            if (pass.Thickness is null)
            {
                yield return new FieldRef(pass, nameof(Pass.Thickness));
            }

            if (index > 0 && pass.WaitBefore is null)
            {
                yield return new FieldRef(pass, nameof(Pass.WaitBefore));
            }
        }

        if (bearer.Item.Substrate is null)
        {
            yield return new FieldRef(bearer.Item, nameof(WorkItem.Substrate));
        }
    }

    /// <summary>The first of the passes as planned, then nothing more.</summary>
    /// <param name="count">How many passes.</param>
    /// <param name="rise">Adiabatic rise.</param>
    public Calculated<PassHeatResult> AsPlanned(int count, TemperatureDelta rise) => HeatMemo.Of(Planned(count, rise));

    /// <summary>What is calculated for the first of the passes.</summary>
    /// <param name="count">How many passes.</param>
    /// <param name="rise">Adiabatic rise.</param>
    public PassHeatCase Planned(int count, TemperatureDelta rise)
    {
        var at = Duration.Zero;
        var passes = ImmutableArray.CreateBuilder<FoamPass>();
        foreach (var pass in bearer.Spray.Passes.Take(count))
        {
            at += passes.Count == 0 ? Duration.Zero : Shorter(pass.WaitBefore!.Value, LongestWait);
            passes.Add(new FoamPass(pass.Thickness!.Value, _foam, _mix, rise, at));
        }

        return CaseOf(passes.ToImmutable());
    }

    /// <summary>One pass on cold foam.</summary>
    /// <param name="thickness">Its thickness.</param>
    /// <param name="below">How many of the planned passes lie below it, cold.</param>
    /// <param name="rise">Adiabatic rise.</param>
    public Calculated<PassHeatResult> OnePass(Length thickness, int below, TemperatureDelta rise) => HeatMemo.Of(CaseOf(
    [
        .. bearer.Spray.Passes.Take(below).Select(pass => new FoamPass(pass.Thickness!.Value, _foam, _air, TemperatureDelta.Zero, Duration.Zero)),
        new FoamPass(thickness, _foam, _mix, rise, Duration.Zero),
    ]));

    private PassHeatCase CaseOf(ImmutableArray<FoamPass> passes) => new(
        [heat.BackOf(bearer.Item.Substrate!.Value, _air)], null, new AirFilm(_air, heat.Film), passes,
        heat.HotAbove.As<Temperature>(), heat.RiseLeft.As<Ratio>(), Horizon);

    private static Duration Shorter(Duration a, Duration b) => a < b ? a : b;
}
