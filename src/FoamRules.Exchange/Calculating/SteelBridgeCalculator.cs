using FoamRules.Calculations;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>How cold steel gets that goes through the insulation.</summary>
internal static class SteelBridgeCalculator
{
    public static Contract.SteelBridgeResponse Run(Contract.SteelBridgeRequest request, Working working)
    {
        var result = working.Take(SteelBridge.Temperatures(
            request.SteelArea.Quantity(), request.Conductivity.Quantity(), request.InInsulation.Quantity(), Side(request.Inside), Side(request.Outside)));
        return new Contract.SteelBridgeResponse
        {
            InsideFace = result.InsideFace.Message(),
            BareInside = result.BareInside.Message(),
            OutsideFace = result.OutsideFace.Message(),
            Heat = result.Heat.Message(),
        };
    }

    private static SteelSide Side(Contract.SteelSide side) => new(
        side.Air.Quantity(),
        side.Film.Quantity(),
        side.Perimeter.Quantity(),
        side.ExposedLength.Quantity(),
        side.Wrap is { } wrap ? new SteelWrap(wrap.Along.Quantity(), wrap.Thickness.Quantity(), wrap.Conductivity.Quantity()) : null);
}
