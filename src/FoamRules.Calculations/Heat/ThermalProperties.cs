using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>What heat conduction needs to know of a material. Diffusivity is α = k/(ρ c), in m²/s.</summary>
/// <param name="Conductivity">Thermal conductivity k, above 0.</param>
/// <param name="Density">Density ρ as it lies there, above 0; for foam the density in place.</param>
/// <param name="SpecificHeat">Specific heat c, above 0.</param>
public sealed record ThermalProperties(ThermalConductivity Conductivity, Density Density, SpecificEntropy SpecificHeat)
{
    internal double K => Conductivity.WattsPerMeterKelvin;

    /// <summary>ρ c, J/(m³ K).</summary>
    internal double HeatCapacity => Density.KilogramsPerCubicMeter * SpecificHeat.JoulesPerKilogramKelvin;

    /// <summary>α, m²/s.</summary>
    internal double Diffusivity => K / HeatCapacity;

    internal Refusal? Bad() =>
        Gate.Above("thermal conductivity", Conductivity, K, 0, "above 0 W/(m K)", "heat has to flow")
        ?? Gate.Above("density", Density, Density.KilogramsPerCubicMeter, 0, "above 0 kg/m³", "the material stores heat")
        ?? Gate.Above("specific heat", SpecificHeat, SpecificHeat.JoulesPerKilogramKelvin, 0, "above 0 J/(kg K)", "the material stores heat");
}

/// <summary>Air on one side of a construction.</summary>
/// <param name="Air">Air temperature.</param>
/// <param name="Film">Surface coefficient h, convection and radiation together, above 0.</param>
public sealed record AirFilm(Temperature Air, HeatTransferCoefficient Film)
{
    internal Refusal? Bad() =>
        HeatRange.Bad("air temperature", Air)
        ?? Gate.Above("surface coefficient", Film, Film.WattsPerSquareMeterKelvin, 0, "above 0 W/(m² K)", "a face that passes no heat is given as no film");
}

/// <summary>The temperatures for which constant foam properties make sense at all.</summary>
internal static class HeatRange
{
    private const double Low = -60, High = 400;

    public static Refusal? Bad(string input, Temperature temperature) =>
        Gate.Between(input, temperature, temperature.DegreesCelsius, Low, High, "−60 to 400 °C", "outside it foam is no longer foam, or no longer worked with");
}
