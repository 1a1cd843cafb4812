using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>An adiabatic rise with the interval in which it may lie.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="Likely">Likely value.</param>
/// <param name="High">Upper end.</param>
public sealed record RiseInterval(TemperatureDelta Low, TemperatureDelta Likely, TemperatureDelta High);

/// <summary>
/// Calculation 4.3, first part: how far the reaction warms the mix. ΔT = q/c, heat of reaction per kg of mix over its
/// specific heat. Trimer, off-ratio mix and oxidation add more; a blowing agent that evaporates takes some away.
/// Source: heat balance (handbook 7 section 2.1: fitted sets land at 240 ± 10 kJ/kg and 1.8 kJ/(kg K), handbook heats are higher).
/// </summary>
public static class ReactionHeat
{
    private const string Source = "heat balance of the mix, nothing lost";

    /// <summary>ΔT = q/c.</summary>
    /// <param name="heat">Heat of reaction per mass of mix, 0 to 1000 kJ/kg.</param>
    /// <param name="specificHeat">Specific heat of the reacting mix, above 0.</param>
    public static Calculated<TemperatureDelta> AdiabaticRise(SpecificEnergy heat, SpecificEntropy specificHeat)
    {
        var refusal = Gate.Between("heat of reaction", heat, heat.KilojoulesPerKilogram, 0, 1000, "0 to 1000 kJ/kg", "no two-component foam gives more")
            ?? Gate.Above("specific heat", specificHeat, specificHeat.JoulesPerKilogramKelvin, 0, "above 0 J/(kg K)", "the mix stores heat");
        if (refusal is not null)
            return Calculated<TemperatureDelta>.Refuse(refusal);
        var rise = TemperatureDelta.FromKelvins(heat.JoulesPerKilogram / specificHeat.JoulesPerKilogramKelvin);
        return Calculated<TemperatureDelta>.From(rise, Of("adiabatic rise", "ΔT = q/c", rise, Source, In("q", "heat of reaction per kg of mix", heat), In("c", "specific heat of the mix", specificHeat)));
    }

    /// <summary>The rise with its interval, from a low, a likely and a high heat of reaction.</summary>
    /// <param name="low">Lowest credible heat of reaction.</param>
    /// <param name="likely">Likely one.</param>
    /// <param name="high">Highest credible one.</param>
    /// <param name="specificHeat">Specific heat of the reacting mix.</param>
    public static Calculated<RiseInterval> AdiabaticRise(SpecificEnergy low, SpecificEnergy likely, SpecificEnergy high, SpecificEntropy specificHeat)
    {
        var (a, b, c) = (AdiabaticRise(low, specificHeat), AdiabaticRise(likely, specificHeat), AdiabaticRise(high, specificHeat));
        if ((a.Refusal ?? b.Refusal ?? c.Refusal) is { } refusal)
            return Calculated<RiseInterval>.Refuse(refusal);
        if (!(low <= likely && likely <= high))
            return Calculated<RiseInterval>.Refuse("heat of reaction", Measure.Of(likely), "between the low and the high one", "it is an interval");
        return Calculated<RiseInterval>.From(new RiseInterval(a.Value, b.Value, c.Value), [.. a.Steps, .. b.Steps, .. c.Steps]);
    }

    /// <summary>
    /// The ceiling of the peak: T = T_mix + ΔT. Conduction alone cannot pass it; hot foam below, an off-ratio mix or
    /// oxidation can. It hardly depends on thickness, so it does not judge a pass: the time hot does.
    /// </summary>
    /// <param name="mix">Temperature of the liquid mix as it leaves the gun.</param>
    /// <param name="rise">Adiabatic rise, 0 K or more.</param>
    public static Calculated<Temperature> PeakCeiling(Temperature mix, TemperatureDelta rise)
    {
        var refusal = HeatRange.Bad("mix temperature", mix)
            ?? Gate.Between("adiabatic rise", rise, rise.Kelvins, 0, 1000, "0 to 1000 K", "the reaction gives heat off");
        if (refusal is not null)
            return Calculated<Temperature>.Refuse(refusal);
        var ceiling = Temperature.FromDegreesCelsius(mix.DegreesCelsius + rise.Kelvins);
        return Calculated<Temperature>.From(ceiling, Of("ceiling of the peak", "T = T_mix + ΔT", ceiling, Source, In("T_mix", "mix temperature", mix), In("ΔT", "adiabatic rise", rise)));
    }
}
