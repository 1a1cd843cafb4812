using System.Globalization;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class RespiratorTests
{
    private static readonly MolarMass Mdi = MolarMass.FromGramsPerMole(250.26);
    private static readonly Temperature RoomUs = Temperature.FromDegreesCelsius(25);
    private static readonly Temperature RoomEurope = Temperature.FromDegreesCelsius(20);
    private static readonly Pressure Atmosphere = Pressure.FromPascals(101_325);

    // 29 CFR 1910.134(d)(3)(i)(A) Table 1 typed by hand; 0 = no factor assigned. The columns: quarter mask, half mask, full facepiece,
    // helmet or hood, helmet or hood with the maker's test evidence, loose-fitting.
    [Theory]
    [InlineData("air_purifying", "", 5, 10, 50, 0, 0, 0)]
    [InlineData("powered_air_purifying", "", 0, 50, 1000, 25, 1000, 25)]
    [InlineData("supplied_air", "demand", 0, 10, 50, 0, 0, 0)]
    [InlineData("supplied_air", "continuous_flow", 0, 50, 1000, 25, 1000, 25)]
    [InlineData("supplied_air", "pressure_demand", 0, 50, 1000, 0, 0, 0)]
    [InlineData("self_contained", "demand", 0, 10, 50, 50, 0, 0)]
    [InlineData("self_contained", "pressure_demand", 0, 0, 10000, 10000, 0, 0)]
    public void Every_cell_of_the_table_is_looked_up(string type, string mode, double quarter, double half, double full, double hood, double hoodTested, double loose)
    {
        var table = OshaTable();
        (string Facepiece, double Factor)[] cells =
            [("quarter_mask", quarter), ("half_mask", half), ("full_facepiece", full), ("helmet_or_hood", hood), ("helmet_or_hood_with_test_evidence", hoodTested), ("loose_fitting", loose)];
        foreach (var (facepiece, factor) in cells)
        {
            var found = Respirator.AssignedProtectionFactor(table, new RespiratorClass(type, mode, facepiece));
            if (factor == 0)
                Assert.Equal("respirator", found.Refusal!.Input);
            else
                Assert.Equal(factor, found.Value.Amount);
        }
    }

    [Fact]
    public void The_check_table_has_no_rows_but_these_seven() => Assert.Equal(7, CheckValues.Read("respirator-apf.csv").Count);

    // NIOSH Pocket Guide ladder for MDI (from memory): REL 0.05 mg/m³ × 10, 25, 50, and 2,000 capped by the IDLH of 75 mg/m³.
    [Theory]
    [InlineData(10, 0.5, MaximumUseReason.ProtectionFactor)]
    [InlineData(25, 1.25, MaximumUseReason.ProtectionFactor)]
    [InlineData(50, 2.5, MaximumUseReason.ProtectionFactor)]
    [InlineData(2000, 75, MaximumUseReason.Idlh)]
    public void Maximum_use_concentration_follows_the_ladder(double factor, double milligrams, MaximumUseReason reason)
    {
        var use = Respirator.MaximumUseConcentration(factor, Milligrams(0.05), Milligrams(75), null).Value;
        Assert.Equal(milligrams, use.Concentration.MilligramsPerCubicMeter, 1e-9);
        Assert.Equal(reason, use.Reason);
    }

    [Fact]
    public void Cartridge_limit_caps_the_maximum_use_concentration()
    {
        var use = Respirator.MaximumUseConcentration(50, Milligrams(0.2), Milligrams(75), Milligrams(4)).Value;
        Assert.Equal(4, use.Concentration.MilligramsPerCubicMeter, 1e-9);
        Assert.Equal(MaximumUseReason.Cartridge, use.Reason);
    }

    // By hand: 0.037 ppm while spraying at 10.4 air changes (trade study) is 0.38 mg/m³; against the 0.2 mg/m³ ceiling 1.9, against 0.05 mg/m³ 7.6.
    [Fact]
    public void The_floor_of_the_task_comes_first_and_the_tightest_limit_governs()
    {
        Exposure[] exposures = [new("ceiling", Milligrams(0.2), Milligrams(0.38)), new("recommended 10 h average", Milligrams(0.05), Milligrams(0.38))];
        var needed = Respirator.NeededFactor(25, exposures);
        Assert.Equal(7.6, needed.Value.FromExposure, 1e-9);
        Assert.Equal("recommended 10 h average", needed.Value.GoverningLimit);
        Assert.Equal(25, needed.Value.Needed);
        Assert.Equal("floor of the task", needed.Steps[0].Name);
        Assert.Equal(7.6, Respirator.NeededFactor(1, exposures).Value.Needed, 1e-9);
    }

    [Fact]
    public void The_order_of_the_limits_changes_nothing()
    {
        Exposure[] exposures = [new("b", Milligrams(1), Milligrams(2)), new("a", Milligrams(2), Milligrams(4))];
        Assert.Equal("a", Respirator.NeededFactor(1, exposures).Value.GoverningLimit);
        Assert.Equal("a", Respirator.NeededFactor(1, exposures.Reverse().ToList()).Value.GoverningLimit);
    }

    // 250.26 g/mol at 25 °C: 250.26 ÷ 24.4654 L/mol = 10.229 mg/m³; US practice rounds the molar volume to 24.45 and prints 10.24 (0.1 % more).
    [Fact]
    public void One_ppm_of_MDI_vapour_at_25_degrees_is_10_24_milligrams()
    {
        var mass = Vapour(1, RoomUs).MilligramsPerCubicMeter;
        Assert.Equal(10.229, mass, 0.0005);
        Assert.True(Math.Abs(mass / 10.24 - 1) < 0.0012);
    }

    // 20 °C (EU, UK): 10.40. OSHA ceiling 0.02 ppm: 0.205 mg/m³ at 25 °C. IDLH 75 mg/m³: 7.3 ppm.
    [Fact]
    public void Other_conversions_of_MDI_vapour_agree_with_those_worked_by_hand()
    {
        Assert.Equal(10.40, Vapour(1, RoomEurope).MilligramsPerCubicMeter, 0.005);
        Assert.Equal(0.205, Vapour(0.02, RoomUs).MilligramsPerCubicMeter, 0.0005);
        Assert.Equal(7.3, Respirator.VapourShare(Milligrams(75), Mdi, RoomUs, Atmosphere).Value.PartsPerMillion, 0.05);
    }

    // Derived equivalents by hand: NCO share of MDI 2 × 42.017 ÷ 250.26 = 0.336; UK 20 and 70 µg NCO/m³: 0.0596 and 0.2085 mg MDI/m³;
    // EU 6 and 12 µg: 0.0179 and 0.0357; 10 and 20 µg: 0.0298 and 0.0596.
    [Theory]
    [InlineData(20, 0.0596)]
    [InlineData(70, 0.2085)]
    [InlineData(6, 0.0179)]
    [InlineData(12, 0.0357)]
    [InlineData(10, 0.0298)]
    public void Limits_as_NCO_agree_with_their_MDI_equivalents(double micrograms, double milligrams)
    {
        var share = Respirator.NcoShare(Mdi, 2).Value;
        Assert.Equal(0.336, share.DecimalFractions, 0.0005);
        Assert.Equal(milligrams, Respirator.IsocyanateFromNco(MassConcentration.FromMicrogramsPerCubicMeter(micrograms), share).Value.MilligramsPerCubicMeter, 0.00005);
    }

    [Fact]
    public void Conversions_round_trip() =>
        Gen.Select(Gen.Double[0.0001, 1000], Gen.Double[17, 400], Gen.Double[0, 40], Gen.Double[80, 110], Gen.Double[0.05, 1]).Holds(at =>
        {
            var (ppm, molar, celsius, kilopascals, nco) = at;
            var (mass, temperature, pressure) = (MolarMass.FromGramsPerMole(molar), Temperature.FromDegreesCelsius(celsius), Pressure.FromKilopascals(kilopascals));
            var there = Respirator.VapourMass(VolumeConcentration.FromPartsPerMillion(ppm), mass, temperature, pressure).Value;
            Assert.Equal(ppm, Respirator.VapourShare(there, mass, temperature, pressure).Value.PartsPerMillion, ppm * 1e-9);
            var share = Ratio.FromDecimalFractions(nco);
            Assert.Equal(ppm, Respirator.NcoFromIsocyanate(Respirator.IsocyanateFromNco(Milligrams(ppm), share).Value, share).Value.MilligramsPerCubicMeter, ppm * 1e-9);
        });

    [Fact]
    public void More_in_the_air_never_needs_less_and_a_better_respirator_never_allows_less() =>
        Gen.Select(Gen.Double[0, 10], Gen.Double[0.001, 1], Gen.Double[1, 1000], Gen.Double[0, 5]).Holds(at =>
        {
            var (peak, limit, factor, more) = at;
            Assert.True(Needed(peak + more, limit) >= Needed(peak, limit));
            Assert.True(Needed(peak, limit + more) <= Needed(peak, limit));
            Assert.True(
                Respirator.MaximumUseConcentration(factor + more, Milligrams(limit), Milligrams(75), null).Value.Concentration
                >= Respirator.MaximumUseConcentration(factor, Milligrams(limit), Milligrams(75), null).Value.Concentration);
        });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(0.5)]
    [InlineData(-10)]
    public void A_factor_that_is_none_is_refused(double factor)
    {
        Assert.False(Respirator.MaximumUseConcentration(factor, Milligrams(1), null, null).HasValue);
        Assert.False(Respirator.NeededFactor(factor, [new("ceiling", Milligrams(1), Milligrams(1))]).HasValue);
        var respirator = new RespiratorClass("a", "", "b");
        Assert.False(Respirator.AssignedProtectionFactor(new Dictionary<RespiratorClass, double> { [respirator] = factor }, respirator).HasValue);
    }

    [Fact]
    public void Inputs_outside_their_range_are_refused()
    {
        Assert.Equal("exposure limits", Respirator.NeededFactor(1, []).Refusal!.Input);
        Assert.Equal("exposure limit", Respirator.NeededFactor(1, [new("a", Milligrams(0), Milligrams(1))]).Refusal!.Input);
        Assert.Equal("expected concentration", Respirator.NeededFactor(1, [new("a", Milligrams(1), Milligrams(-1))]).Refusal!.Input);
        Assert.Equal("IDLH", Respirator.MaximumUseConcentration(10, Milligrams(1), Milligrams(0), null).Refusal!.Input);
        Assert.Equal("cartridge limit", Respirator.MaximumUseConcentration(10, Milligrams(1), null, Milligrams(-1)).Refusal!.Input);
        Assert.Equal("reference temperature", Respirator.VapourMass(VolumeConcentration.FromPartsPerMillion(1), Mdi, Temperature.FromDegreesCelsius(41), Atmosphere).Refusal!.Input);
        Assert.Equal("reference pressure", Respirator.VapourShare(Milligrams(1), Mdi, RoomUs, Pressure.FromKilopascals(1)).Refusal!.Input);
        Assert.Equal("vapour concentration", Respirator.VapourMass(VolumeConcentration.FromPartsPerMillion(1_000_001), Mdi, RoomUs, Atmosphere).Refusal!.Input);
        Assert.Equal("vapour concentration", Respirator.VapourShare(MassConcentration.FromKilogramsPerCubicMeter(11), Mdi, RoomUs, Atmosphere).Refusal!.Input);
        Assert.Equal("molar mass", Respirator.VapourMass(VolumeConcentration.FromPartsPerMillion(1), MolarMass.Zero, RoomUs, Atmosphere).Refusal!.Input);
        Assert.Equal("molar mass", Respirator.NcoShare(MolarMass.FromGramsPerMole(80), 2).Refusal!.Input);
        Assert.Equal("NCO groups in a molecule", Respirator.NcoShare(Mdi, 0).Refusal!.Input);
        Assert.Equal("mass share of NCO", Respirator.IsocyanateFromNco(Milligrams(1), Ratio.Zero).Refusal!.Input);
        Assert.Equal("mass share of NCO", Respirator.NcoFromIsocyanate(Milligrams(1), Ratio.FromPercent(101)).Refusal!.Input);
    }

    private static double Needed(double peak, double limit) => Respirator.NeededFactor(1, [new("a", Milligrams(limit), Milligrams(peak))]).Value.Needed;

    private static MassConcentration Vapour(double ppm, Temperature temperature) =>
        Respirator.VapourMass(VolumeConcentration.FromPartsPerMillion(ppm), Mdi, temperature, Atmosphere).Value;

    private static MassConcentration Milligrams(double value) => MassConcentration.FromMilligramsPerCubicMeter(value);

    private static Dictionary<RespiratorClass, double> OshaTable() => CheckValues.Read("respirator-apf.csv")
        .SelectMany(row => row.Where(cell => cell.Key is not ("respirator" or "mode" or "status") && cell.Value.Length > 0)
            .Select(cell => (Class: new RespiratorClass(row["respirator"], row["mode"], cell.Key), Factor: double.Parse(cell.Value, CultureInfo.InvariantCulture))))
        .ToDictionary(cell => cell.Class, cell => cell.Factor);
}
