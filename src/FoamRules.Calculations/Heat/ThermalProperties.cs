using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>What heat conduction needs to know of a material. Diffusivity is α = k/(ρ c), in m²/s.</summary>
/// <param name="Conductivity">Thermal conductivity k, 0.0001 to 5000 W/(m K).</param>
/// <param name="Density">Density ρ as it lies there, for foam the density in place; 0.1 to 30,000 kg/m³.</param>
/// <param name="SpecificHeat">Specific heat c, 10 to 20,000 J/(kg K).</param>
public sealed record ThermalProperties(ThermalConductivity Conductivity, Density Density, SpecificEntropy SpecificHeat)
{
    internal double K => Conductivity.WattsPerMeterKelvin;

    /// <summary>ρ c, J/(m³ K).</summary>
    internal double HeatCapacity => Density.KilogramsPerCubicMeter * SpecificHeat.JoulesPerKilogramKelvin;

    /// <summary>α, m²/s.</summary>
    internal double Diffusivity => K / HeatCapacity;

    internal Refusal? Bad() =>
        Gate.Between("thermal conductivity", Conductivity, K, 0.0001, 5000, "0.0001 to 5000 W/(m K)", "no material lies outside")
        ?? Gate.Between("density", Density, Density.KilogramsPerCubicMeter, 0.1, 30_000, "0.1 to 30,000 kg/m³", "no material lies outside")
        ?? Gate.Between("specific heat", SpecificHeat, SpecificHeat.JoulesPerKilogramKelvin, 10, 20_000, "10 to 20,000 J/(kg K)", "no material lies outside");
}

/// <summary>Air on one side of a construction.</summary>
/// <param name="Air">Air temperature.</param>
/// <param name="Film">Surface coefficient h, convection and radiation together, 0.001 to 1,000,000 W/(m² K).</param>
public sealed record AirFilm(Temperature Air, HeatTransferCoefficient Film)
{
    internal Refusal? Bad() =>
        HeatRange.Bad("air temperature", Air)
        ?? Gate.Between("surface coefficient", Film, Film.WattsPerSquareMeterKelvin, 0.001, 1e6, "0.001 to 1,000,000 W/(m² K)", "a face that passes no heat is given as no film");
}

/// <summary>The temperatures for which constant foam properties make sense at all.</summary>
internal static class HeatRange
{
    private const double Low = -60, High = 400;

    public static Refusal? Bad(Said input, Temperature temperature) =>
        Gate.Between(input, temperature, temperature.DegreesCelsius, Low, High, "−60 to 400 °C", "outside it foam is no longer foam, or no longer worked with");
}
