using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class ReactionTests
{
    [Theory]
    // Results noted by the author of a public research code (read; handbook 7 section 2.3), start 300.15 K.
    [InlineData(250, 0.360373, 0.867306, 355.076)]
    [InlineData(375, 0.739291, 0.999651, 402.580)]
    [InlineData(400, 0.790203, 0.999960, 408.735)]
    public void The_first_set_reproduces_the_published_check_points(double seconds, double gelling, double blowing, double kelvins)
    {
        var state = ReactionKinetics.Adiabatic(ReactionKinetics.BaserKhakharType, Temperature.FromKelvins(300.15), Duration.FromSeconds(seconds)).Value;

        Assert.Equal(gelling, state.Gelling.DecimalFractions, 2e-6);
        Assert.Equal(blowing, state.Blowing.DecimalFractions, 2e-6);
        Assert.Equal(kelvins, state.Temperature.Kelvins, 1e-3);
    }

    [Theory]
    // Handbook 7 section 2.3, computed there without the CO₂ term; start 300 K.
    [InlineData(30, 363.1)]
    [InlineData(40, 396.1)]
    [InlineData(60, 429.1)]
    [InlineData(3600, 434.1)]
    public void The_second_set_reproduces_the_handbook(double seconds, double kelvins)
    {
        var set = ReactionKinetics.FoamModellingProject;
        Assert.Equal(kelvins, ReactionKinetics.Adiabatic(set, Temperature.FromKelvins(300), Duration.FromSeconds(seconds)).Value.Temperature.Kelvins, 0.4);
    }

    [Fact]
    public void Complete_conversion_gives_the_handbook_rise()
    {
        // Handbook 7 section 2.3: 242,136/(1800 + 836.6·300·0.044/1100) = 133.8 K, 134.5 K without the gas.
        var set = ReactionKinetics.BaserKhakharType;
        var end = ReactionKinetics.Adiabatic(set, Temperature.FromKelvins(323.15), Duration.FromHours(2)).Value;
        Assert.Equal(133.8, end.Temperature.Kelvins - 323.15, 0.25);

        var heat = ReactionKinetics.HeatOfReaction(set, Ratio.Zero, SpecificEnergy.Zero).Value;
        Assert.Equal(242.136, heat.KilojoulesPerKilogram, 1e-3);
        Assert.Equal(134.5, ReactionHeat.AdiabaticRise(heat, set.SpecificHeat).Value.Kelvins, 0.05);
    }

    [Fact]
    public void The_second_set_gives_its_heat_with_and_without_pentane()
    {
        // Handbook 7 section 2.1: 243.6 kJ/kg; 232.2 with 5.7 % n-pentane evaporated at 200 kJ/kg.
        var set = ReactionKinetics.FoamModellingProject;
        Assert.Equal(243.6, ReactionKinetics.HeatOfReaction(set, Ratio.Zero, SpecificEnergy.Zero).Value.KilojoulesPerKilogram, 0.05);
        Assert.Equal(232.2, ReactionKinetics.HeatOfReaction(set, Ratio.FromDecimalFractions(0.057), SpecificEnergy.FromKilojoulesPerKilogram(200)).Value.KilojoulesPerKilogram, 0.05);
    }

    [Fact]
    public void The_rise_carries_its_interval_and_bounds_the_peak()
    {
        // By hand: 212.4, 241.2 and 356.4 kJ/kg over 1.8 kJ/(kg K) are 118, 134 and 198 K.
        static SpecificEnergy Heat(double value) => SpecificEnergy.FromKilojoulesPerKilogram(value);
        var c = SpecificEntropy.FromKilojoulesPerKilogramKelvin(1.8);
        var rise = ReactionHeat.AdiabaticRise(Heat(212.4), Heat(241.2), Heat(356.4), c).Value;

        Assert.Equal([118, 134, 198], new[] { rise.Low.Kelvins, rise.Likely.Kelvins, rise.High.Kelvins }.Select(v => Math.Round(v, 9)));
        Assert.Equal(184, ReactionHeat.PeakCeiling(Temperature.FromDegreesCelsius(50), rise.Likely).Value.DegreesCelsius, 1e-9);
        Assert.False(ReactionHeat.AdiabaticRise(Heat(250), Heat(240), Heat(260), c).HasValue);
    }

    [Fact]
    public void A_warmer_mix_is_never_behind_a_colder_one()
    {
        Gen.Select(Gen.Double[280, 330], Gen.Double[0.1, 20], Gen.Double[1, 300]).Holds(c =>
        {
            var (kelvins, warmer, seconds) = c;
            ReactionState At(double t) => ReactionKinetics.Adiabatic(ReactionKinetics.BaserKhakharType, Temperature.FromKelvins(t), Duration.FromSeconds(seconds)).Value;
            Assert.True(At(kelvins + warmer).Gelling >= At(kelvins).Gelling);
            Assert.True(At(kelvins + warmer).Temperature > At(kelvins).Temperature);
        }, 30);
    }

    [Fact]
    public void Impossible_reactions_are_refused()
    {
        var set = ReactionKinetics.BaserKhakharType;
        Assert.Equal("time since mixing", ReactionKinetics.Adiabatic(set, Temperature.FromKelvins(300), Duration.FromHours(3)).Refusal!.Input);
        Assert.Equal("mix temperature", ReactionKinetics.Adiabatic(set, Temperature.FromKelvins(100), Duration.FromHours(1)).Refusal!.Input);
        Assert.Equal("isocyanate", ReactionKinetics.Adiabatic(set with { Isocyanate = Molarity.FromMolesPerCubicMeter(500) }, Temperature.FromKelvins(300), Duration.FromHours(1)).Refusal!.Input);
        Assert.Equal("gelling factor", ReactionKinetics.Adiabatic(set with { GellingFactor = double.NaN }, Temperature.FromKelvins(300), Duration.FromHours(1)).Refusal!.Input);
        Assert.Equal("heat of reaction", ReactionHeat.AdiabaticRise(SpecificEnergy.FromKilojoulesPerKilogram(-1), set.SpecificHeat).Refusal!.Input);
        Assert.Equal("specific heat", ReactionHeat.AdiabaticRise(SpecificEnergy.FromKilojoulesPerKilogram(240), SpecificEntropy.Zero).Refusal!.Input);
        Assert.Equal("adiabatic rise", ReactionHeat.PeakCeiling(Temperature.FromDegreesCelsius(50), TemperatureDelta.FromKelvins(-1)).Refusal!.Input);
        Assert.Equal("mass fraction of blowing agent", ReactionKinetics.HeatOfReaction(set, Ratio.FromPercent(60), SpecificEnergy.Zero).Refusal!.Input);
    }
}
