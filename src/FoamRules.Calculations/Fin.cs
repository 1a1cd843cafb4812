using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>A bar in a fluid, warm at its base.</summary>
/// <param name="CrossSection">Area that carries heat, A, above 0.</param>
/// <param name="Perimeter">Perimeter in the fluid, P, above 0.</param>
/// <param name="Conductivity">Conductivity k, above 0.</param>
/// <param name="Film">Surface coefficient h, above 0.</param>
public sealed record FinBar(Area CrossSection, Length Perimeter, ThermalConductivity Conductivity, HeatTransferCoefficient Film)
{
    /// <summary>√(h P k A), W/K.</summary>
    internal double Admittance => Math.Sqrt(Film.WattsPerSquareMeterKelvin * Perimeter.Meters * Conductivity.WattsPerMeterKelvin * CrossSection.SquareMeters);

    /// <summary>m = √(h P/(k A)), 1/m.</summary>
    internal double Slope => Math.Sqrt(Film.WattsPerSquareMeterKelvin * Perimeter.Meters / (Conductivity.WattsPerMeterKelvin * CrossSection.SquareMeters));

    internal Refusal? Bad() =>
        Gate.Inside("cross-section", CrossSection, CrossSection.SquareMeters, 0, 100, "above 0 and below 100 m²", "it carries the heat")
        ?? Gate.Inside("perimeter", Perimeter, Perimeter.Meters, 0, 1000, "above 0 and below 1000 m", "it gives the heat off")
        ?? Gate.Between("conductivity", Conductivity, Conductivity.WattsPerMeterKelvin, 0.0001, 5000, "0.0001 to 5000 W/(m K)", "no material lies outside")
        ?? Gate.Between("surface coefficient", Film, Film.WattsPerSquareMeterKelvin, 0.001, 1e6, "0.001 to 1,000,000 W/(m² K)", "no fluid lies outside");

    internal static Refusal? Bad(Said name, Temperature temperature) =>
        Gate.Between(name, temperature, temperature.DegreesCelsius, -273, 3000, "−273 to 3000 °C", "a solid bar");
}

/// <summary>What a fin does.</summary>
/// <param name="Slope">m.</param>
/// <param name="HeatAtBase">Heat that flows in at the base.</param>
/// <param name="HeatAtTip">Heat that leaves through the tip.</param>
/// <param name="Middle">Temperature half-way along.</param>
/// <param name="Efficiency">Heat given off over the heat if the whole fin were as warm as its base; null for a tip held at a temperature.</param>
public sealed record FinResult(ReciprocalLength Slope, Power HeatAtBase, Power HeatAtTip, Temperature Middle, Ratio? Efficiency);

/// <summary>
/// Calculation 4.16, first part: heat along a bar of constant section. θ/θ_b = cosh m(L − x)/cosh mL with no heat through the
/// tip; [θ_L/θ_b sinh mx + sinh m(L − x)]/sinh mL with the tip held; m = √(hP/kA); heat at the base √(hPkA) θ_b × tanh mL, or
/// × (cosh mL − θ_L/θ_b)/sinh mL. One-dimensional: the bar is thin beside its length. Range: m L up to 300.
/// Source: Incropera, Fundamentals of Heat and Mass Transfer, table 3.4 (from memory, high); textbook problems recomputed in the tests.
/// </summary>
public static class Fin
{
    private const string Source = "fin equation, Incropera table 3.4 (from memory, high)";

    /// <summary>A fin through whose tip no heat flows.</summary>
    /// <param name="bar">The bar.</param>
    /// <param name="length">Its length, above 0; take a corrected length where the tip gives heat off too.</param>
    /// <param name="root">Temperature of its base.</param>
    /// <param name="air">Temperature of the fluid.</param>
    public static Calculated<FinResult> FreeTip(FinBar bar, Length length, Temperature root, Temperature air)
    {
        if ((bar.Bad() ?? BadLength(bar, length) ?? FinBar.Bad("base temperature", root) ?? FinBar.Bad("air temperature", air)) is { } refusal)
            return Calculated<FinResult>.Refuse(refusal);
        var (m, l, warm) = (bar.Slope, length.Meters, root.Kelvins - air.Kelvins);
        var efficiency = Ratio.FromDecimalFractions(Math.Tanh(m * l) / (m * l));
        return Answer(bar, length, root, air, bar.Admittance * warm * Math.Tanh(m * l), 0, warm * Math.Cosh(m * l / 2) / Math.Cosh(m * l), efficiency, "Q = √(h P k A) θ tanh mL");
    }

    /// <summary>A fin whose tip is held at a temperature.</summary>
    /// <param name="bar">The bar.</param>
    /// <param name="length">Its length, above 0.</param>
    /// <param name="root">Temperature of its base.</param>
    /// <param name="tip">Temperature of its tip.</param>
    /// <param name="air">Temperature of the fluid.</param>
    public static Calculated<FinResult> HeldTip(FinBar bar, Length length, Temperature root, Temperature tip, Temperature air)
    {
        if ((bar.Bad() ?? BadLength(bar, length) ?? FinBar.Bad("base temperature", root) ?? FinBar.Bad("tip temperature", tip) ?? FinBar.Bad("air temperature", air)) is { } refusal)
            return Calculated<FinResult>.Refuse(refusal);
        var (ml, warm, end) = (bar.Slope * length.Meters, root.Kelvins - air.Kelvins, tip.Kelvins - air.Kelvins);
        var (sinh, cosh) = (Math.Sinh(ml), Math.Cosh(ml));
        return Answer(
            bar, length, root, air, bar.Admittance * (warm * cosh - end) / sinh, bar.Admittance * (warm - end * cosh) / sinh,
            (end + warm) * Math.Sinh(ml / 2) / sinh, null, "Q = √(h P k A)(θ cosh mL − θ_L)/sinh mL");
    }

    private static Calculated<FinResult> Answer(
        FinBar bar, Length length, Temperature root, Temperature air, double atBase, double atTip, double middle, Ratio? efficiency, string formula)
    {
        var result = new FinResult(
            ReciprocalLength.FromInverseMeters(bar.Slope), Power.FromWatts(atBase), Power.FromWatts(atTip), Temperature.FromKelvins(air.Kelvins + middle), efficiency);
        return Calculated<FinResult>.From(result,
            Of("slope of the fin", "m = √(h P/(k A))", result.Slope, Source, In("h", "surface coefficient", bar.Film), In("P", "perimeter", bar.Perimeter), In("k", "conductivity", bar.Conductivity), In("A", "cross-section", bar.CrossSection)),
            Of("heat at the base", formula, result.HeatAtBase, Source, In("L", "length", length), In("T", "base temperature", root), In("T_air", "air temperature", air)));
    }

    private static Refusal? BadLength(FinBar bar, Length length) =>
        Gate.Between("length", length, length.Meters, 1e-6, 1e6, "0.001 mm to 1000 km", "a fin has a length")
        ?? Gate.Between("length", length, bar.Slope * length.Meters, 0, 300, "m L at most 300", "the far end is at the fluid's temperature long before");
}
