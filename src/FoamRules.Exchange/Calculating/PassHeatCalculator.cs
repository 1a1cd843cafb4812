using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Pictures;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>How long sprayed passes stay hot.</summary>
internal static class PassHeatCalculator
{
    public static Contract.PassHeatResponse Run(Contract.PassHeatRequest request, Working working)
    {
        var rises = request.AdiabaticRise.Rises(working);
        return new Contract.PassHeatResponse
        {
            Likely = Outcome(working.Take(PassHeat.Simulate(Case(request, rises.Likely)))),
            Low = rises.Low is { } low ? Outcome(Working.ValueOf(PassHeat.Simulate(Case(request, low)))) : null,
            High = rises.High is { } high ? Outcome(Working.ValueOf(PassHeat.Simulate(Case(request, high)))) : null,
            Picture = DrawnPicture.Of(request.Picture, units => CalculationPicture.PassTemperatures(Case(request, rises.Likely), units)),
        };
    }

    private static PassHeatCase Case(Contract.PassHeatRequest request, TemperatureDelta rise) => new(
        [.. request.Substrate.Select(HeatInputs.Layer)],
        request.Back?.Film(),
        request.Front.Film(),
        Passes(request, rise),
        request.HotAbove.Quantity(),
        request.CooledTo.Quantity(),
        request.Horizon.Quantity(),
        [.. request.ReadAfter.Select(time => time.Quantity())]);

    private static ImmutableArray<FoamPass> Passes(Contract.PassHeatRequest request, TemperatureDelta rise)
    {
        var passes = ImmutableArray.CreateBuilder<FoamPass>();
        var at = Duration.Zero;
        foreach (var pass in request.Passes)
        {
            at += pass.WaitBefore?.Quantity() ?? Duration.Zero;
            passes.Add(new FoamPass(pass.Thickness.Quantity(), request.Foam.Properties(), request.MixTemperature.Quantity(), rise, at, request.ReleaseTime?.Quantity()));
        }

        return passes.ToImmutable();
    }

    private static Contract.PassHeatOutcome Outcome(PassHeatResult result) => new()
    {
        TimeHot = result.LongestHot.Message(),
        TimeHotInAll = result.LongestHotInAll.Message(),
        StillHot = result.StillHot,
        HottestDepth = result.HottestDepth.Message(),
        Peak = result.Peak.Message(),
        PeakCeiling = result.PeakCeiling.Message(),
        Passes =
        {
            result.Passes.Select(pass => new Contract.PassCooling
            {
                CooledAfter = pass.CooledAfter?.Message(),
                SurfaceWhenCooled = pass.SurfaceWhenCooled?.Message(),
                AtNextPass = pass.AtNext?.Message(),
            }),
        },
        Readings = { result.Readings.Select(HeatInputs.Message) },
    };
}
