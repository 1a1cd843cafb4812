using FoamRules.Calculations;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>An order of holes that never returns to a compartment too soon.</summary>
internal static class RotationCalculator
{
    public static Contract.RotationResponse Run(Contract.RotationRequest request, Working working)
    {
        var plan = working.Take(Rotation.Plan(
            [.. request.Holes.Select(hole => new FillHole(hole.Id, hole.Compartment, [.. hole.TriggerTimes.Select(time => time.Quantity())], hole.CoolingBelow?.Quantity()))],
            new RotationSettings(
                request.FullRiseSeen.Quantity(), request.RiseFactor, request.SheetWait?.Quantity(), request.Walk.Quantity(), request.RoundTo?.Quantity() ?? Duration.Zero)));
        return new Contract.RotationResponse
        {
            Works = plan.Works,
            CompartmentsInTurn = plan.CompartmentsInTurn,
            LongestPause = plan.Wait?.Message(),
            Waits = { plan.RequiredWaits.Select(wait => new Contract.CompartmentWait { Compartment = wait.Key, Wait = wait.Value.Message() }) },
            Shots = { plan.Shots.Select(Shot) },
        };
    }

    private static Contract.RotationShot Shot(RotationShot shot) => new()
    {
        Hole = shot.Hole,
        Compartment = shot.Compartment,
        Pour = shot.Pour,
        Start = shot.Start.Message(),
        End = shot.End.Message(),
        SinceLast = shot.SinceLast?.Message(),
        Pause = shot.Pause.Message(),
    };
}
