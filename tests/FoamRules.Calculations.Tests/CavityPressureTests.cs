using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class CavityPressureTests
{
    private static readonly Density Air = Density.FromKilogramsPerCubicMeter(1.2);

    // Handbook 4.10: 10 lb/min at 40 kg/m³ is 1.9 L/s; the peak is 2 to 3 times that.
    [Fact]
    public void Air_flow_is_the_growth_of_foam_volume()
    {
        var flow = CavityPressure.AirFlow(MassFlow.FromPoundsPerMinute(10), Density.FromKilogramsPerCubicMeter(40), 2.5).Value;
        Assert.Equal(1.89, flow.Mean.LitersPerSecond, 0.005);
        Assert.Equal(4.72, flow.Peak.LitersPerSecond, 0.005);
    }

    // By hand: 2 kg at 40 kg/m³ is 50 L; 10 % to 70 % in 20 s is the steepest: 50 × 0.6 ÷ 20 = 1.5 L/s; in all 50 × 1 ÷ 100 = 0.5 L/s.
    [Fact]
    public void Rise_curve_gives_the_peak_at_its_steepest_part()
    {
        var flow = CavityPressure.AirFlow(Mass.FromKilograms(2), Density.FromKilogramsPerCubicMeter(40), [Rise(0, 0), Rise(20, 10), Rise(40, 70), Rise(100, 100)]).Value;
        Assert.Equal(1.5, flow.Peak.LitersPerSecond, 1e-9);
        Assert.Equal(0.5, flow.Mean.LitersPerSecond, 1e-9);
    }

    // Worked by hand, ρ 1.2 kg/m³: ½ in hole, 1.0 L/s: 103.9 Pa at C_d 0.60 (0.61: 100.5; 0.65: 88.5); 3/8 in (9.5 mm), 0.5 L/s: 82.9 Pa;
    // ½ in at 5 L/s: 2.6 kPa.
    [Theory]
    [InlineData(12.7, 1.0, 0.60, 103.9)]
    [InlineData(12.7, 1.0, 0.61, 100.5)]
    [InlineData(12.7, 1.0, 0.65, 88.5)]
    [InlineData(9.5, 0.5, 0.60, 82.9)]
    public void Back_pressure_agrees_with_the_numbers_worked_by_hand(double millimetres, double litres, double discharge, double pascals) =>
        Assert.Equal(pascals, Pressure(millimetres, litres, discharge), 0.05);

    [Fact]
    public void Half_an_inch_at_five_litres_a_second_presses_2_6_kilopascals_and_2_5_kilonewtons_on_a_board()
    {
        var pressure = CavityPressure.BackPressure(Litres(5), [Hole(12.7)], 0.60, Air).Value;
        Assert.Equal(2.6, pressure.Kilopascals, 0.05);
        Assert.Equal(2.5, CavityPressure.PanelForce(pressure, Area.FromSquareMeters(0.4 * 2.4)).Value.Kilonewtons, 0.05);
    }

    // To hold 250 Pa at 1 L/s, C_d 0.6: 81.6 mm², 10.2 mm.
    [Fact]
    public void Needed_vent_agrees_with_the_numbers_worked_by_hand()
    {
        var vent = CavityPressure.VentFor(Litres(1), UnitsNet.Pressure.FromPascals(250), 0.6, Air).Value;
        Assert.Equal(81.6, vent.Area.SquareMillimeters, 0.05);
        Assert.Equal(10.2, vent.Diameter.Millimeters, 0.05);
    }

    // Leakage-area check: A 0.01 m², C_d 1, 4 Pa: 0.02582 m³/s.
    [Fact]
    public void Leakage_area_check_comes_back() =>
        Assert.Equal(4, CavityPressure.BackPressure(VolumeFlow.FromCubicMetersPerSecond(0.02582), [new Vent(Area.FromSquareMeters(0.01), VentState.Open)], 1, Air).Value.Pascals, 0.001);

    [Fact]
    public void Needed_vent_holds_the_pressure_it_was_sized_for() =>
        Gen.Select(Gen.Double[0.1, 20], Gen.Double[10, 5000], Gen.Double[0.5, 1]).Holds(at =>
        {
            var (litres, pascals, discharge) = at;
            var vent = CavityPressure.VentFor(Litres(litres), UnitsNet.Pressure.FromPascals(pascals), discharge, Air).Value;
            Assert.Equal(pascals, Pressure(vent.Diameter.Millimeters, litres, discharge), pascals * 1e-9);
        });

    [Fact]
    public void Bigger_hole_or_one_more_never_presses_more_and_more_air_never_less() =>
        Gen.Select(Gen.Double[12, 40], Gen.Double[0.1, 4], Gen.Double[0.01, 0.9]).Holds(at =>
        {
            var (diameter, litres, more) = at;
            var pressure = Pressure(diameter, litres, 0.6);
            Assert.True(Pressure(diameter + more, litres, 0.6) < pressure);
            Assert.True(CavityPressure.BackPressure(Litres(litres), [Hole(diameter), Hole(5)], 0.6, Air).Value.Pascals < pressure);
            Assert.True(Pressure(diameter, litres + more, 0.6) > pressure);
        });

    [Fact]
    public void Fill_hole_with_the_nozzle_in_it_and_a_vent_full_of_foam_do_not_count()
    {
        Vent[] vents = [Hole(12.7), Hole(12.7) with { State = VentState.NozzleInHole }, Hole(12.7) with { State = VentState.ReachedByFoam }];
        Assert.Equal(103.9, CavityPressure.BackPressure(Litres(1), vents, 0.6, Air).Value.Pascals, 0.05);
    }

    [Theory]
    [InlineData(VentState.ReachedByFoam)]
    [InlineData(VentState.NozzleInHole)]
    public void No_number_is_given_once_no_vent_is_open(VentState state) =>
        Assert.Equal("open vents", CavityPressure.BackPressure(Litres(1), [Hole(12.7) with { State = state }], 0.6, Air).Refusal!.Input);

    // Worked by hand: 50 kPa: 1 − 101.325 ÷ 151.325 = 33 % cold. With air 20 → 100 °C: 1 − 0.66959 × 373.15 ÷ 293.15 = 14.8 %.
    [Theory]
    [InlineData(20, 33.04)]
    [InlineData(100, 14.77)]
    [InlineData(200, 0)]
    public void Sealed_tube_fills_only_in_part(double after, double percent) =>
        Assert.Equal(percent, CavityPressure.SealedFill(
            UnitsNet.Pressure.FromPascals(101_325), UnitsNet.Pressure.FromKilopascals(50), Celsius(20), Celsius(after)).Value.Percent, 0.01);

    [Fact]
    public void More_foam_pressure_fills_more_of_a_sealed_tube_and_never_all() =>
        Gen.Select(Gen.Double[0, 300], Gen.Double[0.1, 50]).Holds(at =>
        {
            var (kilopascals, more) = at;
            var less = Sealed(kilopascals);
            Assert.InRange(less.DecimalFractions, 0, 0.999);
            Assert.True(Sealed(kilopascals + more) > less);
        });

    [Fact]
    public void Inches_and_millimetres_give_the_same_pressure() =>
        Assert.Equal(
            Pressure(12.7, 1, 0.6),
            CavityPressure.BackPressure(VolumeFlow.FromCubicFeetPerMinute(Litres(1).CubicFeetPerMinute),
                [new Vent(CavityPressure.HoleArea(Length.FromInches(0.5)).Value, VentState.Open)], 0.6, Density.FromPoundsPerCubicFoot(Air.PoundsPerCubicFoot)).Value.Pascals, 1e-9);

    [Fact]
    public void Inputs_outside_their_range_are_refused()
    {
        var shot = MassFlow.FromPoundsPerMinute(10);
        var foam = Density.FromKilogramsPerCubicMeter(40);
        Assert.Equal("air speed in the vents", CavityPressure.BackPressure(Litres(5), [Hole(5)], 0.6, Air).Refusal!.Input);
        Assert.Equal("allowed pressure", CavityPressure.VentFor(Litres(5), UnitsNet.Pressure.FromKilopascals(7), 0.6, Air).Refusal!.Input);
        Assert.Equal("peak factor", CavityPressure.AirFlow(shot, foam, 0.9).Refusal!.Input);
        Assert.Equal("peak factor", CavityPressure.AirFlow(shot, foam, double.NaN).Refusal!.Input);
        Assert.Equal("mean foam density", CavityPressure.AirFlow(shot, Density.Zero, 2).Refusal!.Input);
        Assert.Equal("area of a vent", CavityPressure.OpenArea([new Vent(Area.FromSquareMeters(-1), VentState.Open)]).Refusal!.Input);
        Assert.Equal("hole diameter", CavityPressure.HoleArea(Length.Zero).Refusal!.Input);
        Assert.Equal("foam pressure", CavityPressure.SealedFill(UnitsNet.Pressure.FromKilopascals(100), UnitsNet.Pressure.FromKilopascals(-1), Celsius(20), Celsius(20)).Refusal!.Input);
        Assert.Equal("air pressure", CavityPressure.SealedFill(UnitsNet.Pressure.FromKilopascals(0), UnitsNet.Pressure.FromKilopascals(50), Celsius(20), Celsius(20)).Refusal!.Input);
        Assert.Equal("air temperature after", CavityPressure.SealedFill(UnitsNet.Pressure.FromKilopascals(100), UnitsNet.Pressure.FromKilopascals(50), Celsius(20), Celsius(201)).Refusal!.Input);
        Assert.Equal("panel area", CavityPressure.PanelForce(UnitsNet.Pressure.FromKilopascals(1), Area.Zero).Refusal!.Input);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Discharge_coefficient_outside_its_range_is_refused(double discharge) =>
        Assert.Equal("discharge coefficient", CavityPressure.BackPressure(Litres(1), [Hole(12.7)], discharge, Air).Refusal!.Input);

    [Fact]
    public void Rise_curve_that_does_not_rise_is_refused()
    {
        RisePoint[][] curves = [[], [Rise(0, 0)], [Rise(0, 0), Rise(10, 0)], [Rise(10, 0), Rise(5, 50)], [Rise(0, 50), Rise(10, 20)], [Rise(0, 0), Rise(10, 101)]];
        Assert.All(curves, curve => Assert.Equal("rise curve", CavityPressure.AirFlow(Mass.FromKilograms(1), Density.FromKilogramsPerCubicMeter(40), curve).Refusal!.Input));
    }

    private static double Pressure(double millimetres, double litres, double discharge) =>
        CavityPressure.BackPressure(Litres(litres), [Hole(millimetres)], discharge, Air).Value.Pascals;

    private static Ratio Sealed(double kilopascals) =>
        CavityPressure.SealedFill(UnitsNet.Pressure.FromPascals(101_325), UnitsNet.Pressure.FromKilopascals(kilopascals), Celsius(20), Celsius(20)).Value;

    private static Vent Hole(double millimetres) => new(CavityPressure.HoleArea(Length.FromMillimeters(millimetres)).Value, VentState.Open);

    private static VolumeFlow Litres(double perSecond) => VolumeFlow.FromLitersPerSecond(perSecond);

    private static Temperature Celsius(double value) => Temperature.FromDegreesCelsius(value);

    private static RisePoint Rise(double seconds, double percent) => new(Duration.FromSeconds(seconds), Ratio.FromPercent(percent));
}
