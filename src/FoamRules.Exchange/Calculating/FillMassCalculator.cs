using FoamRules.Calculations;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>Void, foam mass and seconds of shot for one compartment.</summary>
internal static class FillMassCalculator
{
    public static Contract.FillMassResponse Run(Contract.FillMassRequest request, Working working)
    {
        var response = new Contract.FillMassResponse();
        var (smallest, largest) = Voids(request, response, working);
        var density = AtSite(request, working);
        var mass = working.Take(FillMass.ForCompartment(smallest, largest, density, request.FlowFactor, request.OverpackLimit.Quantity()));
        (response.SmallestVoid, response.LargestVoid) = (smallest.Message(), largest.Message());
        response.DensityAtSite = density.Message();
        response.Mass = new Contract.MassRange { Low = mass.Low.Message(), Aim = mass.Aim.Message(), High = mass.High.Message() };
        if (request.Output is { } given)
        {
            var output = OutputOf(given, working);
            var seconds = working.Take(FillMass.SecondsFor(mass, output));
            response.Output = new Contract.SteadyOutput { Rate = output.Rate.Message(), Lag = output.Lag.Message() };
            response.Seconds = new Contract.SecondsRange { Low = seconds.Low.Message(), Aim = seconds.Aim.Message(), High = seconds.High.Message() };
        }

        return response;
    }

    private static (Volume Smallest, Volume Largest) Voids(Contract.FillMassRequest request, Contract.FillMassResponse response, Working working)
    {
        switch (request.CompartmentCase)
        {
            case Contract.FillMassRequest.CompartmentOneofCase.HollowSection:
                var (section, length) = (request.HollowSection, request.HollowSection.Length.Quantity());
                var properties = working.Take(HollowSections.Properties(working.Take(HollowSections.Parse(section.Section, Standard(section.Standard)))));
                response.LeastInsideWidth = properties.LeastInsideWidth.Message();
                return (working.Take(FillMass.VoidVolume(properties.VoidAtNominalWall, length)), working.Take(FillMass.VoidVolume(properties.VoidAtDesignWall, length)));
            case Contract.FillMassRequest.CompartmentOneofCase.Prism:
                var prism = working.Take(FillMass.VoidVolume(request.Prism.Area.Quantity(), request.Prism.Length.Quantity()));
                return (prism, prism);
            case Contract.FillMassRequest.CompartmentOneofCase.Box:
                var box = working.Take(FillMass.VoidVolume(request.Box.Width.Quantity(), request.Box.Depth.Quantity(), request.Box.Height.Quantity()));
                return (box, box);
            default:
                return (request.Volumes.Smallest.Quantity(), request.Volumes.Largest.Quantity());
        }
    }

    private static Density AtSite(Contract.FillMassRequest request, Working working)
    {
        var density = request.FreeRiseDensity.Quantity();
        if (request.SiteAir is not { } air)
        {
            return density;
        }

        var pressure = air.AtSiteCase == Contract.SiteAir.AtSiteOneofCase.Altitude
            ? working.Take(FillMass.StandardPressure(air.Altitude.Quantity()))
            : air.Pressure.Quantity();
        return working.Take(FillMass.SiteFreeRiseDensity(density, pressure, air.SheetPressure.Quantity()));
    }

    private static Output OutputOf(Contract.MachineOutput output, Working working) =>
        output.KnownByCase == Contract.MachineOutput.KnownByOneofCase.Steady
            ? new Output(output.Steady.Rate.Quantity(), output.Steady.Lag?.Quantity() ?? Duration.Zero)
            : working.Take(FillMass.OutputFrom([.. output.Weighed.Shots.Select(shot => new WeighedShot(shot.TriggerTime.Quantity(), shot.Mass.Quantity()))]));

    private static SectionStandard Standard(Contract.SectionStandard standard) => standard switch
    {
        Contract.SectionStandard.AstmA500 => SectionStandard.AstmA500,
        Contract.SectionStandard.AstmA1085 => SectionStandard.AstmA1085,
        Contract.SectionStandard.En102102 => SectionStandard.En10210,
        _ => SectionStandard.En10219,
    };
}
