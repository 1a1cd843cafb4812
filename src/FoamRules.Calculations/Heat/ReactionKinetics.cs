using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>Parameters of the two reactions in a foam: gelling (polyol) and blowing (water).</summary>
/// <param name="Name">Name of the set.</param>
/// <param name="GellingHeat">Heat given off per mole of OH (of NCO used by it).</param>
/// <param name="GellingFactor">A_OH in m³/(mol s); UnitsNet has no such quantity.</param>
/// <param name="GellingActivation">E_OH.</param>
/// <param name="BlowingHeat">Heat given off per mole of water: two NCO are used, so the heat per NCO is half of it.</param>
/// <param name="BlowingFactor">A_W.</param>
/// <param name="BlowingActivation">E_W.</param>
/// <param name="Hydroxyl">Initial OH groups.</param>
/// <param name="Water">Initial water.</param>
/// <param name="Isocyanate">Initial NCO groups.</param>
/// <param name="LiquidDensity">Density of the liquid mix.</param>
/// <param name="SpecificHeat">Specific heat of the mix.</param>
/// <param name="GasSpecificHeat">Specific heat of the CO₂ that is formed.</param>
/// <param name="Source">Where the numbers come from and how they are known.</param>
public sealed record KineticSet(
    string Name,
    MolarEnergy GellingHeat,
    double GellingFactor,
    MolarEnergy GellingActivation,
    MolarEnergy BlowingHeat,
    Frequency BlowingFactor,
    MolarEnergy BlowingActivation,
    Molarity Hydroxyl,
    Molarity Water,
    Molarity Isocyanate,
    Density LiquidDensity,
    SpecificEntropy SpecificHeat,
    SpecificEntropy GasSpecificHeat,
    string Source);

/// <summary>How far the reactions are, with nothing lost to the outside.</summary>
/// <param name="Gelling">Conversion of OH, X_OH.</param>
/// <param name="Blowing">Conversion of water, X_W.</param>
/// <param name="Temperature">Temperature of the mix.</param>
public sealed record ReactionState(Ratio Gelling, Ratio Blowing, Temperature Temperature);

/// <summary>
/// Calculation 4.3, kinetics: dX_OH/dt = A_OH e^(−E_OH/RT) C_OH (1 − X_OH)(C_NCO/C_OH − 2(C_W/C_OH)X_W − X_OH),
/// dX_W/dt = A_W e^(−E_W/RT)(1 − X_W), (c + c_CO₂ M C_W X_W/ρ) dT/dt = (ΔH_OH C_OH dX_OH/dt + ΔH_W C_W dX_W/dt)/ρ;
/// fourth-order Runge-Kutta. One report prints exp(+E/RT): the sign is minus.
/// Source: rate law and balance as read in public research code (handbook 7 section 2.1); the papers themselves not read.
/// </summary>
public static class ReactionKinetics
{
    // R = N_A k in J/(mol K), exact in the SI of 2019 (from memory, certain): with it the published check points come out to
    // their last digit, with 8.314 they do not. Molar mass of CO₂ in kg/mol as the check points use it.
    private const double GasConstant = 8.314462618, CarbonDioxideMolarMass = 0.044;
    private const double LargestStepSeconds = 0.05;

    /// <summary>The set of the Baser and Khakhar type, gelling and water blowing (Polym. Eng. Sci. 34(8), 1994).</summary>
    public static KineticSet BaserKhakharType { get; } = new(
        "Baser and Khakhar type",
        MolarEnergy.FromJoulesPerMole(70_750), 1.7348, MolarEnergy.FromJoulesPerMole(40_400),
        MolarEnergy.FromJoulesPerMole(86_000), Frequency.FromPerSecond(1385), MolarEnergy.FromJoulesPerMole(32_660),
        Molarity.FromMolesPerCubicMeter(3400), Molarity.FromMolesPerCubicMeter(300), Molarity.FromMolesPerCubicMeter(4000),
        Density.FromKilogramsPerCubicMeter(1100), SpecificEntropy.FromJoulesPerKilogramKelvin(1800), SpecificEntropy.FromJoulesPerKilogramKelvin(836.6),
        "public research code (read); attributed to Baser and Khakhar 1994 from memory, paper not read");

    /// <summary>The set of the EU foam-modelling project; its NCO runs out at X_OH = 0.6056.</summary>
    public static KineticSet FoamModellingProject { get; } = new(
        "EU foam-modelling project",
        MolarEnergy.FromJoulesPerMole(68_500), 1, MolarEnergy.FromJoulesPerMole(35_140),
        MolarEnergy.FromJoulesPerMole(81_500), Frequency.FromPerSecond(1050), MolarEnergy.FromJoulesPerMole(27_040),
        Molarity.FromMolesPerCubicMeter(5140), Molarity.FromMolesPerCubicMeter(671), Molarity.FromMolesPerCubicMeter(4455),
        Density.FromKilogramsPerCubicMeter(1100), SpecificEntropy.FromJoulesPerKilogramKelvin(1800), SpecificEntropy.FromJoulesPerKilogramKelvin(836.6),
        "two public repositories that agree (read); specific heat of CO₂ taken from the other set");

    /// <summary>
    /// Heat of reaction per mass of mix at full conversion: q = (ΔH_OH C_OH X + ΔH_W C_W)/ρ − w L, where
    /// X = min(1, (C_NCO − 2 C_W)/C_OH) and w L is what an evaporating blowing agent takes away.
    /// </summary>
    /// <param name="set">The parameters.</param>
    /// <param name="blowingAgent">Mass fraction of a blowing agent that evaporates, 0 to 50 %.</param>
    /// <param name="latentHeat">Its heat of evaporation.</param>
    public static Calculated<SpecificEnergy> HeatOfReaction(KineticSet set, Ratio blowingAgent, SpecificEnergy latentHeat)
    {
        var refusal = Bad(set)
            ?? Gate.Between("mass fraction of blowing agent", blowingAgent, blowingAgent.DecimalFractions, 0, 0.5, "0 to 50 %", "the rest has to react")
            ?? Gate.AtLeast("heat of evaporation", latentHeat, latentHeat.JoulesPerKilogram, 0, "0 kJ/kg or more", "evaporating takes heat");
        if (refusal is not null)
            return Calculated<SpecificEnergy>.Refuse(refusal);
        var p = new Numbers(set);
        var heat = SpecificEnergy.FromJoulesPerKilogram(
            (p.GellingHeat * p.Hydroxyl * p.FullGelling + p.BlowingHeat * p.Water) / p.Density - blowingAgent.DecimalFractions * latentHeat.JoulesPerKilogram);
        return Calculated<SpecificEnergy>.From(heat, Of(
            "heat of reaction", "q = (ΔH_OH C_OH X + ΔH_W C_W)/ρ − w L", heat, set.Source,
            In("ΔH_OH", "gelling heat", set.GellingHeat), In("C_OH", "hydroxyl", set.Hydroxyl), In("X", "full gelling conversion", p.FullGelling),
            In("ΔH_W", "blowing heat", set.BlowingHeat), In("C_W", "water", set.Water), In("ρ", "liquid density", set.LiquidDensity),
            In("w", "blowing agent", blowingAgent), In("L", "heat of evaporation", latentHeat)));
    }

    /// <summary>Where the reactions are after a time, from a start temperature, with nothing lost to the outside.</summary>
    /// <param name="set">The parameters.</param>
    /// <param name="start">Temperature of the fresh mix, −60 to 400 °C.</param>
    /// <param name="after">Time since mixing, 0 to 2 h.</param>
    public static Calculated<ReactionState> Adiabatic(KineticSet set, Temperature start, Duration after)
    {
        var refusal = Bad(set) ?? HeatRange.Bad("mix temperature", start)
            ?? Gate.Between("time since mixing", after, after.Hours, 0, 2, "0 to 2 h", "a foam has reacted by then");
        if (refusal is not null)
            return Calculated<ReactionState>.Refuse(refusal);

        var p = new Numbers(set);
        var steps = Math.Max(1, (int)Math.Ceiling(after.Seconds / LargestStepSeconds));
        var h = after.Seconds / steps;
        (double X, double W, double T) at = (0, 0, start.Kelvins);
        for (var i = 0; i < steps; i++)
        {
            var a = p.Rates(at);
            var b = p.Rates(Moved(at, a, h / 2));
            var c = p.Rates(Moved(at, b, h / 2));
            var d = p.Rates(Moved(at, c, h));
            at = Moved(at, (a.X + 2 * b.X + 2 * c.X + d.X, a.W + 2 * b.W + 2 * c.W + d.W, a.T + 2 * b.T + 2 * c.T + d.T), h / 6);
        }

        var state = new ReactionState(Ratio.FromDecimalFractions(at.X), Ratio.FromDecimalFractions(at.W), Temperature.FromKelvins(at.T));
        return Calculated<ReactionState>.From(state, Of(
            "adiabatic temperature", "c dT/dt = (ΔH_OH C_OH dX_OH/dt + ΔH_W C_W dX_W/dt)/ρ", state.Temperature, set.Source,
            In("T₀", "mix temperature", start), In("t", "time since mixing", after), In("X_OH", "gelling conversion", state.Gelling), In("X_W", "blowing conversion", state.Blowing)));
    }

    private static (double X, double W, double T) Moved((double X, double W, double T) from, (double X, double W, double T) rate, double by) =>
        (from.X + rate.X * by, from.W + rate.W * by, from.T + rate.T * by);

    private static Refusal? Bad(KineticSet set) =>
        Gate.Above("hydroxyl", set.Hydroxyl, set.Hydroxyl.MolesPerCubicMeter, 0, "above 0 mol/m³", "it is what gels")
        ?? Gate.AtLeast("water", set.Water, set.Water.MolesPerCubicMeter, 0, "0 mol/m³ or more", "a concentration")
        ?? Gate.AtLeast("isocyanate", set.Isocyanate, set.Isocyanate.MolesPerCubicMeter, 2 * set.Water.MolesPerCubicMeter, "at least twice the water", "each water uses two NCO")
        ?? Gate.Above("liquid density", set.LiquidDensity, set.LiquidDensity.KilogramsPerCubicMeter, 0, "above 0 kg/m³", "a liquid")
        ?? Gate.Above("specific heat", set.SpecificHeat, set.SpecificHeat.JoulesPerKilogramKelvin, 0, "above 0 J/(kg K)", "the mix stores heat")
        ?? Gate.AtLeast("specific heat of CO₂", set.GasSpecificHeat, set.GasSpecificHeat.JoulesPerKilogramKelvin, 0, "0 J/(kg K) or more", "0 leaves the gas out")
        ?? Gate.AtLeast("gelling heat", set.GellingHeat, set.GellingHeat.JoulesPerMole, 0, "0 J/mol or more, given off counted as positive", "gelling gives heat off")
        ?? Gate.AtLeast("blowing heat", set.BlowingHeat, set.BlowingHeat.JoulesPerMole, 0, "0 J/mol or more, given off counted as positive", "blowing gives heat off")
        ?? Gate.Number("gelling factor", set.GellingFactor, 0, double.MaxValue, "0 or more m³/(mol s)", "a rate");

    /// <summary>The set in SI, so that units are converted once and not in every step.</summary>
    private sealed class Numbers(KineticSet set)
    {
        public readonly double GellingHeat = set.GellingHeat.JoulesPerMole, BlowingHeat = set.BlowingHeat.JoulesPerMole;
        public readonly double Hydroxyl = set.Hydroxyl.MolesPerCubicMeter, Water = set.Water.MolesPerCubicMeter;
        public readonly double Density = set.LiquidDensity.KilogramsPerCubicMeter;
        public readonly double FullGelling = Math.Min(1, (set.Isocyanate.MolesPerCubicMeter - 2 * set.Water.MolesPerCubicMeter) / set.Hydroxyl.MolesPerCubicMeter);
        private readonly double _isocyanate = set.Isocyanate.MolesPerCubicMeter;
        private readonly double _gellingFactor = set.GellingFactor, _gellingOverR = set.GellingActivation.JoulesPerMole / GasConstant;
        private readonly double _blowingFactor = set.BlowingFactor.PerSecond, _blowingOverR = set.BlowingActivation.JoulesPerMole / GasConstant;
        private readonly double _heatCapacity = set.SpecificHeat.JoulesPerKilogramKelvin;
        private readonly double _gasHeatCapacity = set.GasSpecificHeat.JoulesPerKilogramKelvin * set.Water.MolesPerCubicMeter * CarbonDioxideMolarMass / set.LiquidDensity.KilogramsPerCubicMeter;

        public (double X, double W, double T) Rates((double X, double W, double T) at)
        {
            var free = _isocyanate / Hydroxyl - 2 * Water / Hydroxyl * at.W - at.X;
            var x = _gellingFactor * Math.Exp(-_gellingOverR / at.T) * Hydroxyl * (1 - at.X) * Math.Max(0, free);
            var w = _blowingFactor * Math.Exp(-_blowingOverR / at.T) * (1 - at.W);
            var t = (GellingHeat * Hydroxyl * x + BlowingHeat * Water * w) / Density / (_heatCapacity + _gasHeatCapacity * at.W);
            return (x, w, t);
        }
    }
}
