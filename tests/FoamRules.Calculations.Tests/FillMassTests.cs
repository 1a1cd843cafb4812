using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class FillMassTests
{
    // Worked example: HSS8X8X1/2, 10 ft: 49.799 in² × 120 in = 3.458 ft³ (97.9 L); 8.65 lb at 2.5 lb/ft³; 51.9 s at 10 lb/min.
    [Fact]
    public void Ten_feet_of_HSS8X8_take_the_mass_and_seconds_worked_by_hand()
    {
        var section = HollowSections.Properties(HollowSections.Parse("HSS8X8X1/2", SectionStandard.AstmA500).Value).Value;
        var volume = FillMass.VoidVolume(section.VoidAtDesignWall, Length.FromFeet(10)).Value;
        var mass = FillMass.MinimumFill(volume, Density.FromPoundsPerCubicFoot(2.5), 1).Value;
        var time = FillMass.SecondsFor(mass, new Output(MassFlow.FromPoundsPerMinute(10), Duration.Zero)).Value;
        Assert.Equal(3.458, volume.CubicFeet, 0.0005);
        Assert.Equal(97.9, volume.Liters, 0.05);
        Assert.Equal(8.65, mass.Pounds, 0.005);
        Assert.Equal(3.92, mass.Kilograms, 0.005);
        Assert.Equal(51.9, time.Seconds, 0.05);
    }

    // The same for a 3 ft lift: 2.59 lb, 15.6 s.
    [Fact]
    public void Three_feet_of_HSS8X8_take_the_mass_and_seconds_worked_by_hand()
    {
        var volume = FillMass.VoidVolume(Area.FromSquareInches(49.799), Length.FromFeet(3)).Value;
        var mass = FillMass.MinimumFill(volume, Density.FromPoundsPerCubicFoot(2.5), 1).Value;
        Assert.Equal(2.59, mass.Pounds, 0.005);
        Assert.Equal(15.6, FillMass.SecondsFor(mass, new Output(MassFlow.FromPoundsPerMinute(10), Duration.Zero)).Value.Seconds, 0.05);
    }

    // Stud bay by hand: 14.5 in × 3.5 in × 96 in = 4,872 in³ = 2.819 ft³.
    [Fact]
    public void Stud_bay_is_width_times_depth_times_height() =>
        Assert.Equal(2.819, FillMass.VoidVolume(Length.FromInches(14.5), Length.FromInches(3.5), Length.FromInches(96)).Value.CubicFeet, 0.0005);

    // Standard atmosphere tables (ISO 2533, from memory): 79,495 Pa at 2,000 m, 54,020 Pa at 5,000 m, 22,632 Pa at 11,000 m.
    [Theory]
    [InlineData(0, 101_325)]
    [InlineData(2_000, 79_495)]
    [InlineData(5_000, 54_020)]
    [InlineData(11_000, 22_632)]
    public void Standard_pressure_agrees_with_the_standard_atmosphere(double metres, double pascals) =>
        Assert.Equal(pascals, FillMass.StandardPressure(Length.FromMeters(metres)).Value.Pascals, 1.0);

    // 1,600 m: × 0.82 (handbook of calculations 4.6).
    [Fact]
    public void Foam_rises_lighter_at_altitude()
    {
        var site = FillMass.StandardPressure(Length.FromMeters(1600)).Value;
        var density = FillMass.SiteFreeRiseDensity(Density.FromKilogramsPerCubicMeter(40), site, Pressure.FromPascals(101_325)).Value;
        Assert.Equal(0.82, density.KilogramsPerCubicMeter / 40, 0.005);
    }

    // By hand: ρ 40, f 1.2; voids 0.100 and 0.102 m³; overpack 15 %: low 4.896, high 4.8 × 1.15 = 5.52, aim 5.208 kg.
    [Fact]
    public void Low_fills_the_largest_void_and_high_does_not_overfill_the_smallest()
    {
        var range = FillMass.ForCompartment(Litres(100), Litres(102), Density.FromKilogramsPerCubicMeter(40), 1.2, Ratio.FromPercent(15)).Value;
        Assert.Equal(4.896, range.Low.Kilograms, 1e-9);
        Assert.Equal(5.208, range.Aim.Kilograms, 1e-9);
        Assert.Equal(5.52, range.High.Kilograms, 1e-9);
        // At 0.1 kg/s with 0.3 s of lag: 49.26, 52.38 and 55.5 s.
        var seconds = FillMass.SecondsFor(range, new Output(MassFlow.FromKilogramsPerSecond(0.1), Duration.FromSeconds(0.3))).Value;
        Assert.Equal(49.26, seconds.Low.Seconds, 1e-9);
        Assert.Equal(52.38, seconds.Aim.Seconds, 1e-9);
        Assert.Equal(55.5, seconds.High.Seconds, 1e-9);
    }

    // By hand: 5 kg with 2.5 % of spread and two standard deviations: 4.75 and 5.25 kg.
    [Fact]
    public void A_planned_mass_may_come_out_two_standard_deviations_off()
    {
        var ends = FillMass.WithSpread(Mass.FromKilograms(5), Ratio.FromPercent(2.5), 2).Value;
        Assert.Equal(4.75, ends.Low.Kilograms, 1e-9);
        Assert.Equal(5.25, ends.High.Kilograms, 1e-9);
    }

    // By hand: 4.75 to 5.25 kg with 5 % to either end: plan 5 kg and nothing else; a wider spread leaves nothing to plan.
    [Fact]
    public void What_to_plan_is_the_inverse_and_is_refused_where_the_spread_is_wider_than_the_range()
    {
        var range = new FillMassRange(Mass.FromKilograms(4.7), Mass.FromKilograms(5), Mass.FromKilograms(5.5));
        var plan = FillMass.ToPlan(range, Ratio.FromPercent(2.5), 2).Value;
        Assert.Equal(4.7 / 0.95, plan.Low.Kilograms, 1e-9);
        Assert.Equal(5.5 / 1.05, plan.High.Kilograms, 1e-9);
        Assert.Equal("spread of the output", FillMass.ToPlan(range, Ratio.FromPercent(5), 2).Refusal!.Input);
        Assert.Equal("spread of the output", FillMass.WithSpread(Mass.FromKilograms(5), Ratio.FromPercent(50), 2).Refusal!.Input);
    }

    // By hand: 2 kg over 0.02 m² at 40 kg/m³ and a flow factor of 1.25: 2 ÷ (0.02 × 40 × 1.25) = 2 m.
    [Fact]
    public void Rise_of_a_pour_is_read_at_minimum_fill_density()
    {
        Assert.Equal(2, FillMass.Rise(Mass.FromKilograms(2), Area.FromSquareMeters(0.02), Density.FromKilogramsPerCubicMeter(40), 1.25).Value.Meters, 1e-9);
        Assert.Equal("flow factor", FillMass.Rise(Mass.FromKilograms(2), Area.FromSquareMeters(0.02), Density.FromKilogramsPerCubicMeter(40), 0.9).Refusal!.Input);
    }

    [Fact]
    public void No_mass_is_given_where_filling_the_largest_void_overfills_the_smallest()
    {
        var refused = FillMass.ForCompartment(Litres(100), Litres(111), Density.FromKilogramsPerCubicMeter(40), 1, Ratio.FromPercent(10));
        Assert.Equal("overpack limit", refused.Refusal!.Input);
        Assert.True(FillMass.ForCompartment(Litres(100), Litres(109), Density.FromKilogramsPerCubicMeter(40), 1, Ratio.FromPercent(10)).HasValue);
    }

    // Moulding texts: 110 % of minimum fill is 10 % of overpack. 5.5 kg on a minimum of 5 kg; 0.1 m³ at 40 kg/m³ free rise: 55 ÷ 40 = 1.375.
    [Fact]
    public void Overpack_is_on_minimum_fill_and_packing_factor_on_free_rise()
    {
        var poured = Mass.FromKilograms(5.5);
        Assert.Equal(10, FillMass.Overpack(poured, Mass.FromKilograms(5)).Value.Percent, 1e-9);
        Assert.Equal(1.375, FillMass.PackingFactor(poured, Litres(100), Density.FromKilogramsPerCubicMeter(40)).Value.Amount, 1e-9);
        Assert.Equal(-45, FillMass.Overpack(poured, Mass.FromKilograms(10)).Value.Percent, 1e-9);
    }

    // Handbook 4.6: 0.3 s of lag is 10 % of a 3 s shot: 2.7 s of foam.
    [Fact]
    public void Lag_takes_its_share_of_a_short_shot() =>
        Assert.Equal(0.27, FillMass.MassFrom(Duration.FromSeconds(3), new Output(MassFlow.FromKilogramsPerSecond(0.1), Duration.FromSeconds(0.3))).Value.Kilograms, 1e-9);

    [Fact]
    public void Seconds_and_mass_round_trip() =>
        Gen.Select(Gen.Double[0.01, 50], Gen.Double[0.005, 0.5], Gen.Double[0, 2]).Holds(at =>
        {
            var (kilograms, rate, lag) = at;
            var output = new Output(MassFlow.FromKilogramsPerSecond(rate), Duration.FromSeconds(lag));
            var time = FillMass.SecondsFor(Mass.FromKilograms(kilograms), output).Value;
            Assert.Equal(kilograms, FillMass.MassFrom(time, output).Value.Kilograms, kilograms * 1e-9);
        });

    // Shots made from 0.08 kg/s and 0.3 s: 2 s 0.136 kg, 4 s 0.296 kg, 8 s 0.616 kg.
    [Fact]
    public void Output_and_lag_come_back_from_weighed_shots()
    {
        var output = FillMass.OutputFrom([Shot(2, 0.136), Shot(4, 0.296), Shot(8, 0.616)]).Value;
        Assert.Equal(0.08, output.Rate.KilogramsPerSecond, 1e-12);
        Assert.Equal(0.3, output.Lag.Seconds, 1e-9);
    }

    [Fact]
    public void Output_is_refused_from_one_duration_or_from_shots_that_make_no_sense()
    {
        Assert.Equal("weighed shots", FillMass.OutputFrom([Shot(4, 0.3), Shot(4, 0.31)]).Refusal!.Input);
        Assert.Equal("weighed shots", FillMass.OutputFrom([]).Refusal!.Input);
        Assert.Equal("output", FillMass.OutputFrom([Shot(2, 0.3), Shot(4, 0.2)]).Refusal!.Input);
        Assert.Equal("lag", FillMass.OutputFrom([Shot(2, 0.4), Shot(4, 0.6)]).Refusal!.Input);
        Assert.Equal(0, FillMass.OutputFrom([Shot(3, 0.3), Shot(7, 0.7)]).Value.Lag.Seconds);
    }

    [Fact]
    public void Larger_void_denser_foam_and_colder_steel_never_take_less_mass() =>
        Gen.Select(Gen.Double[0.001, 1], Gen.Double[10, 80], Gen.Double[1, 2], Gen.Double[0, 0.5]).Holds(at =>
        {
            var (volume, density, flow, more) = at;
            var mass = Fill(volume, density, flow);
            Assert.True(Fill(volume + more, density, flow) >= mass);
            Assert.True(Fill(volume, density + more, flow) >= mass);
            Assert.True(Fill(volume, density, flow + more) >= mass);
        });

    [Fact]
    public void Inch_pound_and_metric_give_the_same_mass() =>
        Gen.Select(Gen.Double[0.1, 50], Gen.Double[1, 4]).Holds(at =>
        {
            var (feet, pounds) = at;
            var volume = Volume.FromCubicFeet(feet);
            var density = Density.FromPoundsPerCubicFoot(pounds);
            var metric = FillMass.MinimumFill(volume.ToUnit(UnitsNet.Units.VolumeUnit.Liter), density.ToUnit(UnitsNet.Units.DensityUnit.KilogramPerCubicMeter), 1.1).Value;
            Assert.Equal(FillMass.MinimumFill(volume, density, 1.1).Value.Kilograms, metric.Kilograms, metric.Kilograms * 1e-12);
        });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(0.99)]
    [InlineData(-1)]
    public void Flow_factor_below_one_or_not_a_number_is_refused(double factor) =>
        Assert.Equal("flow factor", FillMass.MinimumFill(Litres(1), Density.FromKilogramsPerCubicMeter(40), factor).Refusal!.Input);

    [Fact]
    public void Inputs_outside_their_range_are_refused()
    {
        var density = Density.FromKilogramsPerCubicMeter(40);
        var output = new Output(MassFlow.FromKilogramsPerSecond(0.1), Duration.FromSeconds(0.3));
        Assert.Equal("altitude", FillMass.StandardPressure(Length.FromMeters(11_001)).Refusal!.Input);
        Assert.Equal("altitude", FillMass.StandardPressure(Length.FromMeters(-2_001)).Refusal!.Input);
        Assert.Equal("air pressure at the site", FillMass.SiteFreeRiseDensity(density, Pressure.FromKilopascals(0.5), Pressure.FromKilopascals(101)).Refusal!.Input);
        Assert.Equal("void area", FillMass.VoidVolume(Area.FromSquareMeters(-1), Length.FromMeters(1)).Refusal!.Input);
        Assert.Equal("largest likely void", FillMass.ForCompartment(Litres(10), Litres(9), density, 1, Ratio.FromPercent(10)).Refusal!.Input);
        Assert.Equal("overpack limit", FillMass.ForCompartment(Litres(10), Litres(10), density, 1, Ratio.FromPercent(110)).Refusal!.Input);
        Assert.Equal("time", FillMass.MassFrom(Duration.FromSeconds(0.3), output).Refusal!.Input);
        Assert.Equal("lag", FillMass.SecondsFor(Mass.FromKilograms(1), output with { Lag = Duration.FromSeconds(-0.1) }).Refusal!.Input);
        Assert.Equal("output", FillMass.SecondsFor(Mass.FromKilograms(1), output with { Rate = MassFlow.Zero }).Refusal!.Input);
        Assert.Equal("mass", FillMass.SecondsFor(Mass.Zero, output).Refusal!.Input);
    }

    private static Mass Fill(double cubicMetres, double density, double flow) =>
        FillMass.MinimumFill(Volume.FromCubicMeters(cubicMetres), Density.FromKilogramsPerCubicMeter(density), flow).Value;

    private static Volume Litres(double value) => Volume.FromLiters(value);

    private static WeighedShot Shot(double seconds, double kilograms) => new(Duration.FromSeconds(seconds), Mass.FromKilograms(kilograms));
}
