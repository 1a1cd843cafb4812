using System.Collections.Immutable;
using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>A layer of a construction.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Resistance">Thermal resistance R, above 0; for foam from the aged value at that thickness.</param>
/// <param name="DiffusionEquivalent">Water vapour diffusion-equivalent air layer thickness s_d = μ d, 0 or more.</param>
public sealed record WallLayer(string Name, ThermalResistance Resistance, Length DiffusionEquivalent);

/// <summary>Surface resistances. For heat and for mould the inside one differs: keep both.</summary>
/// <param name="Inside">R_si, above 0.</param>
/// <param name="Outside">R_se, above 0.</param>
public sealed record SurfaceResistances(ThermalResistance Inside, ThermalResistance Outside);

/// <summary>A part of a bridged construction: its share of the area and its layers from the inside.</summary>
/// <param name="Share">Share of the area.</param>
/// <param name="Layers">Its layers; as many as every other part has.</param>
public sealed record WallSection(Ratio Share, ImmutableArray<WallLayer> Layers);

/// <summary>How well a construction insulates.</summary>
/// <param name="Resistance">Total thermal resistance, surfaces included.</param>
/// <param name="Transmittance">U = 1/R.</param>
public sealed record WallResistance(ThermalResistance Resistance, HeatTransferCoefficient Transmittance);

/// <summary>How cold the inner surface may get.</summary>
/// <param name="Surface">Lowest allowed temperature of the inner surface.</param>
/// <param name="Factor">f_Rsi that gives it.</param>
public sealed record RequiredSurface(Temperature Surface, Ratio Factor);

/// <summary>
/// Calculation 4.14, heat: R = d/λ; R_T = R_si + ΣR + R_se and U = 1/R_T; bridged constructions by the upper and lower limit;
/// temperatures in proportion to resistance; f_Rsi = (θ_si − θ_e)/(θ_i − θ_e) = 1 − R_si/R_T.
/// Range: layers of 1 mm² K/W to 100 m² K/W; not for insulation bridged by metal (calculation 4.16 is).
/// Source: ISO 6946:2017 sections 6.7 and annex C, ISO 13788 (from memory, high; surface resistances read in part).
/// </summary>
public static class Layers
{
    private const string Iso6946 = "ISO 6946:2017, 6.7 (from memory, high)";
    private const string Iso13788 = "ISO 13788 (from memory, high)";

    // ISO 6946: the method does not hold where the upper limit is more than 1.5 times the lower (from memory, high).
    private const double MostUpperOverLower = 1.5;

    /// <summary>A solid layer: R = d/λ, s_d = μ d.</summary>
    /// <param name="name">What it is.</param>
    /// <param name="thickness">d, above 0 and below 10 m.</param>
    /// <param name="conductivity">λ, 0.0001 to 5000 W/(m K); for foam the aged value tested at that thickness.</param>
    /// <param name="diffusionFactor">μ, 1 (air) or more.</param>
    public static Calculated<WallLayer> Layer(string name, Length thickness, ThermalConductivity conductivity, double diffusionFactor)
    {
        var refusal = Gate.Inside($"thickness of {name}", thickness, thickness.Meters, 0, 10, "above 0 and below 10 m", "a layer has a thickness")
            ?? Gate.Between($"conductivity of {name}", conductivity, conductivity.WattsPerMeterKelvin, 0.0001, 5000, "0.0001 to 5000 W/(m K)", "no material lies outside")
            ?? Gate.Number($"diffusion factor of {name}", diffusionFactor, 1, 1e7, "1 to 10,000,000", "no material is more open than air");
        if (refusal is not null)
            return Calculated<WallLayer>.Refuse(refusal);
        var resistance = ThermalResistance.FromSquareMeterKelvinsPerWatt(thickness.Meters / conductivity.WattsPerMeterKelvin);
        var layer = new WallLayer(name, resistance, thickness * diffusionFactor);
        return Calculated<WallLayer>.From(layer,
            Of($"resistance of {name}", "R = d/λ", resistance, Iso6946, In("d", "thickness", thickness), In("λ", "conductivity", conductivity)),
            Of($"s_d of {name}", "s_d = μ d", layer.DiffusionEquivalent, Iso13788, In("μ", "diffusion factor", diffusionFactor)));
    }

    /// <summary>Permeance to vapour W = δ₀/s_d of a layer, in nanograms per pascal, second and square meter; δ₀ 2e-10 kg/(m s Pa).</summary>
    /// <param name="diffusionEquivalent">s_d = μ d, above 0.</param>
    public static Calculated<double> Permeance(Length diffusionEquivalent)
    {
        if (Gate.Inside("s_d", diffusionEquivalent, diffusionEquivalent.Meters, 0, 1e8, "above 0 and below 100,000 km", "a layer resists vapour") is { } refusal)
            return Calculated<double>.Refuse(refusal);
        var nanograms = Mass.FromKilograms(Vapour.PermeabilityOfAir).Nanograms / diffusionEquivalent.Meters;
        return Calculated<double>.From(nanograms, Of("permeance, ng/(Pa s m²)", "W = δ₀/s_d", Measure.OfFactor(nanograms), Iso13788, In("s_d", "diffusion-equivalent air layer", diffusionEquivalent)));
    }

    /// <summary>R and U of plain layers.</summary>
    /// <param name="layers">The layers.</param>
    /// <param name="surfaces">The surface resistances.</param>
    public static Calculated<WallResistance> Resistance(ImmutableArray<WallLayer> layers, SurfaceResistances surfaces)
    {
        if (Bad(layers, surfaces) is { } refusal)
            return Calculated<WallResistance>.Refuse(refusal);
        return Answer(Total(layers, surfaces), "R_T = R_si + ΣR + R_se",
        [
            In("R_si", "inside surface", surfaces.Inside), .. layers.Select(layer => In("R", layer.Name, layer.Resistance)), In("R_se", "outside surface", surfaces.Outside),
        ]);
    }

    /// <summary>
    /// R and U of bridged layers (framing, not metal): mean of the upper limit 1/R' = Σ f/R_T of the parts and the lower limit
    /// R'' = R_si + Σ 1/(Σ f/R of each layer) + R_se.
    /// </summary>
    /// <param name="sections">The parts; shares add up to 100 %, all with the same number of layers.</param>
    /// <param name="surfaces">The surface resistances.</param>
    public static Calculated<WallResistance> BridgedResistance(ImmutableArray<WallSection> sections, SurfaceResistances surfaces)
    {
        if (sections.IsDefaultOrEmpty)
            return Calculated<WallResistance>.Refuse("sections", Measure.OfCount(0), "at least one", "there is nothing to work out");
        Refusal? bad = null;
        foreach (var section in sections)
        {
            bad ??= Gate.Between("share of the area", section.Share, section.Share.DecimalFractions, double.Epsilon, 1, "above 0 and at most 100 %", "it is a part of the area")
                ?? Bad(section.Layers, surfaces)
                ?? (section.Layers.Length == sections[0].Layers.Length ? null : new Refusal("layers of a section", Measure.OfCount(section.Layers.Length), "as many as in every other", "layer is set against layer"));
        }

        var whole = Ratio.FromDecimalFractions(sections.Sum(section => section.Share.DecimalFractions));
        bad ??= Gate.Between("shares together", whole, whole.DecimalFractions, 1 - 1e-6, 1 + 1e-6, "100 %", "they are the whole area");
        if (bad is not null)
            return Calculated<WallResistance>.Refuse(bad);

        var upper = 1 / sections.Sum(section => section.Share.DecimalFractions / Total(section.Layers, surfaces));
        var lower = surfaces.Inside.SquareMeterKelvinsPerWatt + surfaces.Outside.SquareMeterKelvinsPerWatt
            + Enumerable.Range(0, sections[0].Layers.Length).Sum(i => 1 / sections.Sum(section => section.Share.DecimalFractions / section.Layers[i].Resistance.SquareMeterKelvinsPerWatt));
        if (upper / lower > MostUpperOverLower)
            return Calculated<WallResistance>.Refuse("upper over lower limit", Gate.Shown(upper / lower), "at most 1.5", "heat flows sideways too strongly for the method (metal, for one)");
        return Answer((upper + lower) / 2, "R_T = (R' + R'')/2",
        [
            In("R'", "upper limit", ThermalResistance.FromSquareMeterKelvinsPerWatt(upper)), In("R''", "lower limit", ThermalResistance.FromSquareMeterKelvinsPerWatt(lower)),
        ]);
    }

    /// <summary>Temperatures at the inner surface, between the layers, and at the outer surface.</summary>
    /// <param name="layers">The layers from the inside.</param>
    /// <param name="surfaces">The surface resistances.</param>
    /// <param name="inside">Inside air, −60 to 100 °C.</param>
    /// <param name="outside">Outside air, −60 to 100 °C.</param>
    public static Calculated<ImmutableArray<Temperature>> Temperatures(
        ImmutableArray<WallLayer> layers, SurfaceResistances surfaces, Temperature inside, Temperature outside)
    {
        if ((Bad(layers, surfaces) ?? BadAir("inside air", inside) ?? BadAir("outside air", outside)) is { } refusal)
            return Calculated<ImmutableArray<Temperature>>.Refuse(refusal);
        ImmutableArray<Temperature> all = [.. Profile(layers, surfaces, inside.DegreesCelsius, outside.DegreesCelsius).Select(value => Temperature.FromDegreesCelsius(value))];
        return Calculated<ImmutableArray<Temperature>>.From(all,
            [.. all.Select((temperature, i) => Of(
                i == 0 ? "inner surface" : $"outside of {layers[i - 1].Name}", "θ = θ_i − (θ_i − θ_e) ΣR/R_T", temperature, Iso13788, In("θ_i", "inside air", inside), In("θ_e", "outside air", outside)))]);
    }

    /// <summary>f_Rsi = 1 − R_si/R_T of plain layers, with the inside resistance that was given (0.25 at walls for mould, 0.13 for heat).</summary>
    /// <param name="layers">The layers.</param>
    /// <param name="surfaces">The surface resistances.</param>
    public static Calculated<Ratio> SurfaceFactor(ImmutableArray<WallLayer> layers, SurfaceResistances surfaces)
    {
        if (Bad(layers, surfaces) is { } refusal)
            return Calculated<Ratio>.Refuse(refusal);
        var factor = Ratio.FromDecimalFractions(1 - surfaces.Inside.SquareMeterKelvinsPerWatt / Total(layers, surfaces));
        return Calculated<Ratio>.From(factor, Of(
            "surface temperature factor", "f_Rsi = 1 − R_si/R_T", factor, Iso13788,
            In("R_si", "inside surface", surfaces.Inside), In("R_T", "total", ThermalResistance.FromSquareMeterKelvinsPerWatt(Total(layers, surfaces)))));
    }

    /// <summary>
    /// The f_Rsi that keeps the relative humidity at the surface within a limit: p_sat(θ_si) = p_i/φ, f = (θ_si − θ_e)/(θ_i − θ_e).
    /// </summary>
    /// <param name="inside">Inside air, warmer than outside.</param>
    /// <param name="humidity">Relative humidity of the inside air by its use; there is no default.</param>
    /// <param name="outside">Outside air.</param>
    /// <param name="limit">Highest relative humidity at the surface, such as 80 % for mould or 100 % for dew.</param>
    /// <param name="saturation">Saturation pressure; ISO 13788's own formula when null.</param>
    public static Calculated<RequiredSurface> Required(
        Temperature inside, Ratio humidity, Temperature outside, Ratio limit, Func<Temperature, Pressure>? saturation = null)
    {
        var refusal = BadAir("inside air", inside) ?? BadAir("outside air", outside)
            ?? Gate.Between("relative humidity", humidity, humidity.DecimalFractions, 0.01, 1, "1 to 100 %", "below it the air is as good as dry")
            ?? Gate.Between("highest humidity at the surface", limit, limit.DecimalFractions, 0.01, 1, "1 to 100 %", "a relative humidity")
            ?? (inside > outside ? null : new Refusal("inside air", Measure.Of(inside), "warmer than outside", "the factor is for heating"));
        if (refusal is not null)
            return Calculated<RequiredSurface>.Refuse(refusal);
        var pressure = Vapour.Saturation(saturation);
        var needed = humidity.DecimalFractions * pressure(inside.DegreesCelsius) / limit.DecimalFractions;
        const double coldest = -60;
        if (!(pressure(coldest) <= needed && needed <= pressure(100)))
            return Calculated<RequiredSurface>.Refuse("vapour pressure at the surface", Measure.Of(Pressure.FromPascals(needed)), "that of saturation at −60 to 100 °C", "no surface temperature belongs to it");
        var surface = HeatSeries.Bisect(celsius => pressure(celsius) - needed, coldest, 100);
        var (i, e) = (inside.DegreesCelsius, outside.DegreesCelsius);
        var result = new RequiredSurface(Temperature.FromDegreesCelsius(surface), Ratio.FromDecimalFractions((surface - e) / (i - e)));
        return Calculated<RequiredSurface>.From(result,
            Of("lowest surface temperature", "p_sat(θ_si) = φ_i p_sat(θ_i)/φ", result.Surface, Iso13788, In("θ_i", "inside air", inside), In("φ_i", "relative humidity", humidity), In("φ", "highest at the surface", limit)),
            Of("surface temperature factor", "f_Rsi = (θ_si − θ_e)/(θ_i − θ_e)", result.Factor, Iso13788, In("θ_e", "outside air", outside)));
    }

    /// <summary>
    /// Saturation pressure: 610.5 e^(17.269 θ/(237.3 + θ)) Pa from 0 °C, 610.5 e^(21.875 θ/(265.5 + θ)) Pa below.
    /// Range −60 to 100 °C. Source: ISO 13788 annex E (from memory, high).
    /// </summary>
    /// <param name="temperature">The temperature.</param>
    public static Calculated<Pressure> SaturationPressure(Temperature temperature)
    {
        if (BadAir("temperature", temperature) is { } refusal)
            return Calculated<Pressure>.Refuse(refusal);
        var pressure = Pressure.FromPascals(Vapour.Iso(temperature.DegreesCelsius));
        return Calculated<Pressure>.From(pressure, Of("saturation pressure", "610.5 e^(17.269 θ/(237.3 + θ)), below 0 °C 610.5 e^(21.875 θ/(265.5 + θ)) Pa", pressure, "ISO 13788 annex E (from memory, high)", In("θ", "temperature", temperature)));
    }

    /// <summary>Temperatures from the inner to the outer surface, °C.</summary>
    internal static double[] Profile(ImmutableArray<WallLayer> layers, SurfaceResistances surfaces, double inside, double outside)
    {
        var total = Total(layers, surfaces);
        var passed = surfaces.Inside.SquareMeterKelvinsPerWatt;
        var profile = new double[layers.Length + 1];
        profile[0] = inside - (inside - outside) * passed / total;
        for (var i = 0; i < layers.Length; i++)
        {
            passed += layers[i].Resistance.SquareMeterKelvinsPerWatt;
            profile[i + 1] = inside - (inside - outside) * passed / total;
        }

        return profile;
    }

    internal static Refusal? BadAir(Said name, Temperature air) =>
        Gate.Between(name, air, air.DegreesCelsius, -60, 100, "−60 to 100 °C", "saturation formulas hold there");

    internal static Refusal? Bad(ImmutableArray<WallLayer> layers, SurfaceResistances surfaces)
    {
        if (layers.IsDefaultOrEmpty)
            return new Refusal("layers", Measure.OfCount(0), "at least one", "there is nothing to work out");
        var bad = BadResistance("inside surface resistance", surfaces.Inside) ?? BadResistance("outside surface resistance", surfaces.Outside);
        foreach (var layer in layers)
            bad ??= BadResistance($"resistance of {layer.Name}", layer.Resistance)
                ?? Gate.Between($"s_d of {layer.Name}", layer.DiffusionEquivalent, layer.DiffusionEquivalent.Meters, 0, 1e8, "0 to 100,000 km", "a thickness of air");
        return bad;
    }

    private static Refusal? BadResistance(Said name, ThermalResistance resistance) =>
        Gate.Between(name, resistance, resistance.SquareMeterKelvinsPerWatt, 1e-6, 100, "0.000001 to 100 m² K/W", "a layer resists, and none resists more");

    private static double Total(ImmutableArray<WallLayer> layers, SurfaceResistances surfaces) =>
        surfaces.Inside.SquareMeterKelvinsPerWatt + layers.Sum(layer => layer.Resistance.SquareMeterKelvinsPerWatt) + surfaces.Outside.SquareMeterKelvinsPerWatt;

    private static Calculated<WallResistance> Answer(double total, string formula, ReadOnlySpan<Term> terms)
    {
        var result = new WallResistance(ThermalResistance.FromSquareMeterKelvinsPerWatt(total), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(1 / total));
        return Calculated<WallResistance>.From(result,
            Of("total resistance", formula, result.Resistance, Iso6946, terms), Of("transmittance", "U = 1/R_T", result.Transmittance, Iso6946));
    }
}
