using FoamRules.Calculations;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>Dew point or frost point of air, and how far a surface lies above it.</summary>
internal static class DewPointCalculator
{
    public static Contract.DewPointResponse Run(Contract.DewPointRequest request, Working working)
    {
        var humidity = RelativeHumidity.FromPercent(request.RelativeHumidity.Quantity().Percent);
        var over = request.HumidityOver == Contract.HumidityReference.Ice ? HumidityReference.Ice : HumidityReference.Water;
        var point = working.Take(Psychrometrics.DewPoint(request.Air.Quantity(), humidity, over));
        var response = new Contract.DewPointResponse
        {
            DewPoint = point.Temperature.Message(),
            Kind = point.Kind == CondensationKind.FrostPoint ? Contract.CondensationKind.Frost : Contract.CondensationKind.Dew,
            VapourPressure = point.VapourPressure.Message(),
        };
        if (request.Surface is { } surface)
        {
            response.SurfaceAbove = working.Take(Psychrometrics.MarginAboveDewPoint(surface.Quantity(), point)).Message();
        }

        return response;
    }
}
