using FoamRules.Calculations;
using FoamRules.Model;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>How long a sprayed pass takes to cool, and what a surface thermometer reads meanwhile.</summary>
internal static class CoolingTimeCalculator
{
    public static Contract.CoolingTimeResponse Run(Contract.CoolingTimeRequest request, Working working)
    {
        var rises = request.AdiabaticRise.Rises(working);
        return new Contract.CoolingTimeResponse
        {
            Likely = Outcome(working.Take(Cool(request, rises.Likely))),
            Low = rises.Low is { } low ? Outcome(Working.ValueOf(Cool(request, low))) : null,
            High = rises.High is { } high ? Outcome(Working.ValueOf(Cool(request, high))) : null,
        };
    }

    private static Calculated<PassHeatResult> Cool(Contract.CoolingTimeRequest request, TemperatureDelta rise)
    {
        var (mix, front, left) = (request.MixTemperature.Quantity(), request.Front.Film(), request.CooledTo.Quantity());
        var above = mix + rise - front.Air;
        if (above.Kelvins <= 0)
        {
            return Calculated<PassHeatResult>.Refuse("mix temperature", Measure.Of(mix), "with the rise, above the air temperature", "there is nothing to cool");
        }

        // The pass counts as hot until it counts as cooled: no other threshold is asked for.
        var cooled = front.Air + (left.DecimalFractions * above);
        var pass = new FoamPass(request.Thickness.Quantity(), request.Foam.Properties(), mix, rise, Duration.Zero);
        return PassHeat.Simulate(new PassHeatCase(
            [.. request.Substrate.Select(HeatInputs.Layer)], request.Back?.Film(), front, [pass], cooled, left, request.Horizon.Quantity(),
            [.. request.ReadAfter.Select(time => time.Quantity())]));
    }

    private static Contract.CoolingOutcome Outcome(PassHeatResult result) => new()
    {
        Cooled = result.Passes[0].CooledAfter is not null,
        CooledAfter = result.Passes[0].CooledAfter?.Message(),
        SurfaceWhenCooled = result.Passes[0].SurfaceWhenCooled?.Message(),
        Readings = { result.Readings.Select(HeatInputs.Message) },
    };
}
