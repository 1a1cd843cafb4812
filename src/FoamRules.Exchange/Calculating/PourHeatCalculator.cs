using FoamRules.Calculations;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>How long a pour in a hollow section stays hot.</summary>
internal static class PourHeatCalculator
{
    public static Contract.PourHeatResponse Run(Contract.PourHeatRequest request, Working working)
    {
        var rises = request.AdiabaticRise.Rises(working);
        return new Contract.PourHeatResponse
        {
            Likely = Outcome(working.Take(PourHeat.Cool(Case(request, rises.Likely)))),
            Low = rises.Low is { } low ? Outcome(Working.ValueOf(PourHeat.Cool(Case(request, low)))) : null,
            High = rises.High is { } high ? Outcome(Working.ValueOf(PourHeat.Cool(Case(request, high)))) : null,
        };
    }

    private static PourHeatCase Case(Contract.PourHeatRequest request, TemperatureDelta rise) => new(
        request.SectionCase == Contract.PourHeatRequest.SectionOneofCase.Round
            ? new PourSection.Round(request.Round.Diameter.Quantity())
            : new PourSection.Rectangular(request.Rectangular.Width.Quantity(), request.Rectangular.Depth.Quantity()),
        request.Height.Quantity(),
        request.Foam.Properties(),
        request.MixTemperature.Quantity(),
        rise,
        request.Surroundings.Quantity(),
        request.WallFilm?.Quantity(),
        request.TopFilm?.Quantity(),
        request.HotAbove.Quantity(),
        request.CooledTo.Quantity());

    private static Contract.PourHeatOutcome Outcome(PourHeatResult result) => new()
    {
        TimeHot = result.TimeHot.Message(),
        CooledAfter = result.CooledAfter.Message(),
        PeakCeiling = result.PeakCeiling.Message(),
    };
}
