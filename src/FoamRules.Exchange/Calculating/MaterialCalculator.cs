using FoamRules.Calculations;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>Volume, board feet, mass and drum sets.</summary>
internal static class MaterialCalculator
{
    public static Contract.MaterialResponse Run(Contract.MaterialRequest request, Working working)
    {
        var density = request.InPlaceDensity.Quantity();
        var foam = request.FoamCase == Contract.MaterialRequest.FoamOneofCase.OnSurface
            ? working.Take(Material.VolumeOf(request.OnSurface.Area.Quantity(), request.OnSurface.Thickness.Quantity()))
            : null;
        var volume = foam?.Volume ?? request.Volume.Quantity();
        var mass = working.Take(Material.MassOf(volume, density));
        foam ??= working.Take(Material.TheoreticalYield(mass, density));
        var response = new Contract.MaterialResponse { Volume = volume.Message(), BoardFeet = foam.BoardFeet, Mass = mass.Message() };
        if (request.DrumSet is { } set)
        {
            var sets = working.Take(Material.SetsFor(mass, set.Waste.Quantity(), set.Mass.Quantity()));
            response.Drawn = sets.Drawn.Message();
            response.SetsUsed = sets.Sets;
            response.SetsToBring = sets.WholeSets;
            response.YieldOfSetBoardFeet = working.Take(Material.TheoreticalYield(set.Mass.Quantity(), density)).BoardFeet;
        }

        return response;
    }
}
