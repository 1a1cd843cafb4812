using FoamRules.Calculations;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>Air pressure in a cavity while foam rises, the vents it needs, and what a sealed tube takes.</summary>
internal static class CavityPressureCalculator
{
    public static Contract.CavityPressureResponse Run(Contract.CavityPressureRequest request, Working working) =>
        request.CavityCase == Contract.CavityPressureRequest.CavityOneofCase.Sealed ? Sealed(request.Sealed, working) : Vented(request.Vented, working);

    private static Contract.CavityPressureResponse Sealed(Contract.SealedTube tube, Working working) => new()
    {
        SealedFill = working.Take(CavityPressure.SealedFill(
            tube.AirPressure.Quantity(), tube.FoamPressure.Quantity(), tube.AirBefore.Quantity(), tube.AirAfter.Quantity())).Message(),
    };

    private static Contract.CavityPressureResponse Vented(Contract.VentedCavity cavity, Working working)
    {
        var response = new Contract.CavityPressureResponse();
        var peak = PeakFlow(cavity, response, working);
        response.PeakFlow = peak.Message();
        if (cavity.Vents is { } list)
        {
            Vent[] vents = [.. list.Vents.Select(vent => new Vent(AreaOf(vent, working), Enum.Parse<VentState>(vent.State.ToString())))];
            response.OpenArea = Working.ValueOf(CavityPressure.OpenArea(vents)).Message();
            var pressure = working.Take(CavityPressure.BackPressure(peak, vents, cavity.DischargeCoefficient, cavity.AirDensity.Quantity()));
            response.BackPressure = pressure.Message();
            response.PanelForce = cavity.Panel is { } panel ? working.Take(CavityPressure.PanelForce(pressure, panel.Quantity())).Message() : null;
        }

        if (cavity.WallHolds is { } holds)
        {
            var needed = working.Take(CavityPressure.VentFor(peak, holds.Quantity(), cavity.DischargeCoefficient, cavity.AirDensity.Quantity()));
            (response.NeededVentArea, response.NeededVentDiameter) = (needed.Area.Message(), needed.Diameter.Message());
        }

        return response;
    }

    private static VolumeFlow PeakFlow(Contract.VentedCavity cavity, Contract.CavityPressureResponse response, Working working)
    {
        if (cavity.AirCase == Contract.VentedCavity.AirOneofCase.PeakFlow)
        {
            return cavity.PeakFlow.Quantity();
        }

        var flow = working.Take(cavity.AirCase == Contract.VentedCavity.AirOneofCase.FromShot
            ? CavityPressure.AirFlow(cavity.FromShot.Shot.Quantity(), cavity.FromShot.MeanFoamDensity.Quantity(), cavity.FromShot.PeakFactor)
            : CavityPressure.AirFlow(
                cavity.FromRiseCurve.Shot.Quantity(), cavity.FromRiseCurve.FoamDensity.Quantity(),
                [.. cavity.FromRiseCurve.Curve.Select(point => new RisePoint(point.Time.Quantity(), point.Risen.Quantity()))]));
        response.MeanFlow = flow.Mean.Message();
        return flow.Peak;
    }

    private static Area AreaOf(Contract.Vent vent, Working working) =>
        vent.SizeCase == Contract.Vent.SizeOneofCase.Diameter ? working.Take(CavityPressure.HoleArea(vent.Diameter.Quantity())) : vent.OpenArea.Quantity();
}
