using System.Collections.Immutable;
using FoamRules.Calculations;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>R, U, temperatures, surface temperature factor and condensation of a layered construction.</summary>
internal static class WallLayersCalculator
{
    public static Contract.WallLayersResponse Run(Contract.WallLayersRequest request, Working working)
    {
        if (request.SurfaceHumidityLimit is not null && request.DesignDay is null)
        {
            throw new UnusableException(new Model.Violation("design_day", "nothing", "a design day, as the humidity at the surface has a limit", "give design_day, or leave surface_humidity_limit out"));
        }

        var layers = LayersOf(request.Layers, working);
        var surfaces = new SurfaceResistances(request.InsideSurface.Quantity(), request.OutsideSurface.Quantity());
        var resistance = working.Take(request.Bridges.Count == 0 ? Layers.Resistance(layers, surfaces) : Layers.BridgedResistance(Sections(request, layers, working), surfaces));
        var response = new Contract.WallLayersResponse
        {
            Resistance = resistance.Resistance.Message(),
            Transmittance = resistance.Transmittance.Message(),
            SurfaceFactor = working.Take(Layers.SurfaceFactor(layers, surfaces)).Message(),
        };
        if (request.InsideSurfaceForMould is { } mould)
        {
            response.SurfaceFactorForMould = working.Take(Layers.SurfaceFactor(layers, surfaces with { Inside = mould.Quantity() })).Message();
        }

        if (request.DesignDay is { } day)
        {
            DesignDay(request, Climate(day), layers, surfaces, response, working);
        }

        if (request.Months.Count > 0)
        {
            response.Year = Year(working.Take(Glaser.Year(
                layers, surfaces, [.. request.Months.Select(month => new ClimateMonth(month.Name, month.Length.Quantity(), Climate(month.Climate)))])));
        }

        return response;
    }

    private static void DesignDay(
        Contract.WallLayersRequest request, WallClimate climate, ImmutableArray<WallLayer> layers, SurfaceResistances surfaces, Contract.WallLayersResponse response, Working working)
    {
        var temperatures = working.Take(Layers.Temperatures(layers, surfaces, climate.Inside, climate.Outside));
        response.Temperatures.Add(temperatures.Select((temperature, i) => new Contract.PlaceTemperature
        {
            Place = i == 0 ? "inner surface" : $"outside of {layers[i - 1].Name}",
            Temperature = temperature.Message(),
        }));
        if (request.SurfaceHumidityLimit is { } limit)
        {
            var required = working.Take(Layers.Required(climate.Inside, climate.InsideHumidity, climate.Outside, limit.Quantity()));
            (response.RequiredSurface, response.RequiredSurfaceFactor) = (required.Surface.Message(), required.Factor.Message());
        }

        var steady = working.Take(Glaser.Steady(layers, surfaces, climate));
        response.DesignDay = new Contract.SteadyCondensation
        {
            OnInnerSurface = steady.OnInnerSurface,
            BetweenLayers = !steady.Interfaces.IsEmpty,
            Interfaces = { steady.Interfaces.Select(at => new Contract.InterfaceCondensation { Inner = at.Inner, Outer = at.Outer, Rate = at.Rate.Message() }) },
        };
    }

    private static Contract.CondensationYear Year(GlaserYear year) => new()
    {
        Condenses = year.Condenses,
        FirstMonth = year.FirstMonth ?? "",
        MostHeld = year.Most.Message(),
        LeftAfterYear = year.Left.Message(),
        DriesOut = year.DriesOut,
        MonthsOnInnerSurface = { year.OnInnerSurface },
        Held = { year.Months.Select(row => new Contract.HeldWater { Month = row.Month, Inner = row.Inner, Outer = row.Outer, Water = row.Held.Message() }) },
    };

    // What the other parts leave of the area has the request's own layers.
    private static ImmutableArray<WallSection> Sections(Contract.WallLayersRequest request, ImmutableArray<WallLayer> layers, Working working)
    {
        WallSection[] bridges = [.. request.Bridges.Select(bridge => new WallSection(bridge.Share.Quantity(), LayersOf(bridge.Layers, working)))];
        var rest = Ratio.FromDecimalFractions(1 - bridges.Sum(bridge => bridge.Share.DecimalFractions));
        return [new WallSection(rest, layers), .. bridges];
    }

    private static ImmutableArray<WallLayer> LayersOf(IEnumerable<Contract.WallLayer> layers, Working working) =>
        [.. layers.Select(layer => layer.KnownByCase == Contract.WallLayer.KnownByOneofCase.Solid
            ? working.Take(Layers.Layer(layer.Name, layer.Solid.Thickness.Quantity(), layer.Solid.Conductivity.Quantity(), layer.Solid.DiffusionFactor))
            : new WallLayer(layer.Name, layer.Resistances.Resistance.Quantity(), layer.Resistances.DiffusionEquivalent.Quantity()))];

    private static WallClimate Climate(Contract.WallClimate climate) =>
        new(climate.Inside.Quantity(), climate.InsideHumidity.Quantity(), climate.Outside.Quantity(), climate.OutsideHumidity.Quantity());
}
