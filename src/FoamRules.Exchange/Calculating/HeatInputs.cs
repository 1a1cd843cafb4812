using FoamRules.Calculations;
using FoamRules.Model;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>A likely rise with the ends of its interval, where they were given.</summary>
/// <param name="Likely">The likely rise.</param>
/// <param name="Low">The lowest credible one.</param>
/// <param name="High">The highest credible one.</param>
internal sealed record Rises(TemperatureDelta Likely, TemperatureDelta? Low, TemperatureDelta? High);

/// <summary>What the calculations of heat have in common: materials, air, layers, the rise.</summary>
internal static class HeatInputs
{
    public static ThermalProperties Properties(this Contract.ThermalMaterial material) =>
        new(material.Conductivity.Quantity(), material.Density.Quantity(), material.SpecificHeat.Quantity());

    public static AirFilm Film(this Contract.SurfaceAir air) => new(air.Air.Quantity(), air.Film.Quantity());

    public static HeatLayer Layer(this Contract.HeatLayer layer) =>
        new(layer.Name, layer.Thickness.Quantity(), layer.Material.Properties(), layer.Temperature.Quantity());

    /// <summary>The rise as given, or from the heat of reaction; the steps of the likely one are kept.</summary>
    public static Rises Rises(this Contract.AdiabaticRise rise, Working working)
    {
        var rises = rise.KnownByCase == Contract.AdiabaticRise.KnownByOneofCase.Rise
            ? new Rises(rise.Rise.Likely.Quantity(), rise.Rise.Low?.Quantity(), rise.Rise.High?.Quantity())
            : FromReaction(rise.Reaction, working);
        if (rises.Low > rises.Likely || rises.High < rises.Likely)
        {
            throw new UnusableException(new Violation("adiabatic_rise", "ends that do not enclose the likely value", "low, likely and high in this order", "check the interval"));
        }

        return rises;
    }

    private static Rises FromReaction(Contract.ReactionHeat reaction, Working working)
    {
        var specificHeat = reaction.SpecificHeat.Quantity();
        TemperatureDelta? End(Contract.SpecificEnergy? heat) =>
            heat is null ? null : Working.ValueOf(ReactionHeat.AdiabaticRise(heat.Quantity(), specificHeat));
        return new Rises(working.Take(ReactionHeat.AdiabaticRise(reaction.Likely.Quantity(), specificHeat)), End(reaction.Low), End(reaction.High));
    }

    public static Contract.HeatReading Message(this HeatReading reading) => new()
    {
        After = reading.After.Message(),
        Hottest = reading.Hottest.Message(),
        Surface = reading.Surface.Message(),
        Back = reading.Back.Message(),
    };
}
