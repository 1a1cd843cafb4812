using System.Collections.Immutable;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

/// <summary>The worked wall of handbook 7 section 7 (own example, computed there): gypsum, closed-cell foam, OSB; 20 °C 50 %, −10 °C 80 %.</summary>
public class LayersTests
{
    private static readonly SurfaceResistances ForHeat = new(R(0.13), R(0.04));

    private static ThermalResistance R(double value) => ThermalResistance.FromSquareMeterKelvinsPerWatt(value);

    private static Temperature C(double value) => Temperature.FromDegreesCelsius(value);

    private static WallLayer Layer(string name, double millimeters, double lambda, double mu) =>
        Layers.Layer(name, Length.FromMillimeters(millimeters), ThermalConductivity.FromWattsPerMeterKelvin(lambda), mu).Value;

    private static readonly ImmutableArray<WallLayer> FoamWall = [Layer("gypsum", 12.5, 0.25, 10), Layer("foam", 75, 0.024, 60), Layer("OSB", 11, 0.13, 50)];
    private static readonly ImmutableArray<WallLayer> WoolWall = [Layer("gypsum", 12.5, 0.25, 10), Layer("wool", 90, 0.035, 1), Layer("OSB", 11, 0.13, 50)];
    private static readonly WallClimate DesignDay = new(C(20), Ratio.FromPercent(50), C(-10), Ratio.FromPercent(80));

    private static double GramsADay(MassFlux flux) => flux.KilogramsPerSecondPerSquareMeter * 1000 * Duration.FromDays(1).Seconds;

    /// <summary>Hyland and Wexler as the handbook used them: over ice below 0 °C. Coefficients from memory (high).</summary>
    private static Pressure HylandWexler(Temperature at)
    {
        var t = at.Kelvins;
        return Pressure.FromPascals(Math.Exp(t < 273.15
            ? -5.6745359e3 / t + 6.3925247 - 9.677843e-3 * t + 6.2215701e-7 * t * t + 2.0747825e-9 * t * t * t - 9.484024e-13 * Math.Pow(t, 4) + 4.1635019 * Math.Log(t)
            : -5.8002206e3 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t * t - 1.4452093e-8 * t * t * t + 6.5459673 * Math.Log(t)));
    }

    [Fact]
    public void The_worked_wall_has_its_resistance_and_temperatures()
    {
        // Handbook: R 3.4296 m² K/W, U 0.29158; 18.863 / 18.425 / −8.910 / −9.650 °C.
        var wall = Layers.Resistance(FoamWall, ForHeat).Value;
        Assert.Equal(3.4296, wall.Resistance.SquareMeterKelvinsPerWatt, 5e-5);
        Assert.Equal(0.29158, wall.Transmittance.WattsPerSquareMeterKelvin, 5e-6);
        Assert.Equal(19.47, wall.Resistance.HourSquareFeetDegreesFahrenheitPerBtu, 0.01);

        var temperatures = Layers.Temperatures(FoamWall, ForHeat, C(20), C(-10)).Value;
        Assert.Equal([18.863, 18.425, -8.910, -9.650], temperatures.Select(value => Math.Round(value.DegreesCelsius, 3)));
    }

    [Fact]
    public void The_worked_wall_has_its_surface_factor_with_either_inside_resistance()
    {
        // Handbook: 0.9621 with 0.13, 0.9296 with 0.25.
        Assert.Equal(0.9621, Layers.SurfaceFactor(FoamWall, ForHeat).Value.DecimalFractions, 5e-5);
        Assert.Equal(0.9296, Layers.SurfaceFactor(FoamWall, ForHeat with { Inside = R(0.25) }).Value.DecimalFractions, 5e-5);
    }

    [Fact]
    public void The_required_surface_factor_comes_out()
    {
        // Handbook: 20 °C 50 %, −10 °C outside: 12.63 °C for 80 % (0.754); dew point 9.27 °C (0.642).
        var mould = Layers.Required(C(20), Ratio.FromPercent(50), C(-10), Ratio.FromPercent(80)).Value;
        Assert.Equal(12.63, mould.Surface.DegreesCelsius, 0.01);
        Assert.Equal(0.754, mould.Factor.DecimalFractions, 5e-4);

        var dew = Layers.Required(C(20), Ratio.FromPercent(50), C(-10), Ratio.FromPercent(100), HylandWexler).Value;
        Assert.Equal(9.27, dew.Surface.DegreesCelsius, 0.01);
        Assert.Equal(0.642, dew.Factor.DecimalFractions, 5e-4);
    }

    [Theory]
    // Handbook 7 section 7, by ISO 13788's formula.
    [InlineData(20, 2336.95)]
    [InlineData(10, 1227.31)]
    [InlineData(0, 610.50)]
    [InlineData(-5, 401.18)]
    [InlineData(-10, 259.33)]
    public void Saturation_pressure_is_that_of_the_standard(double celsius, double pascals) =>
        Assert.Equal(pascals, Layers.SaturationPressure(C(celsius)).Value.Pascals, 0.02);

    [Fact]
    public void The_worked_wall_condenses_between_foam_and_OSB_only()
    {
        // Handbook: 0.841 g/(m² day) by Hyland and Wexler, 0.843 by ISO's formula.
        var iso = Assert.Single(Glaser.Steady(FoamWall, ForHeat, DesignDay).Value.Interfaces);
        Assert.Equal(("foam", "OSB"), (iso.Inner, iso.Outer));
        Assert.Equal(0.843, GramsADay(iso.Rate), 1e-3);

        Assert.Equal(0.841, GramsADay(Assert.Single(Glaser.Steady(FoamWall, ForHeat, DesignDay, HylandWexler).Value.Interfaces).Rate), 1e-3);
    }

    [Fact]
    public void The_same_wall_with_mineral_wool_condenses_eighty_times_as_much()
    {
        // Handbook: R 2.8760, interface −8.700 °C, 67.9 g/(m² day).
        Assert.Equal(2.8760, Layers.Resistance(WoolWall, ForHeat).Value.Resistance.SquareMeterKelvinsPerWatt, 5e-5);
        Assert.Equal(67.9, GramsADay(Assert.Single(Glaser.Steady(WoolWall, ForHeat, DesignDay, HylandWexler).Value.Interfaces).Rate), 0.06);
        Assert.Equal(-8.700, Layers.Temperatures(WoolWall, ForHeat, C(20), C(-10)).Value[2].DegreesCelsius, 1e-3);
    }

    [Fact]
    public void A_dry_climate_condenses_nowhere_and_a_wet_room_on_its_surface()
    {
        var dry = Glaser.Steady(FoamWall, ForHeat, DesignDay with { InsideHumidity = Ratio.FromPercent(20) }).Value;
        Assert.Empty(dry.Interfaces);
        Assert.False(dry.OnInnerSurface);
        // 95 % at 20 °C: dew point 19.2 °C, above the 18.86 °C of the surface.
        Assert.True(Glaser.Steady(FoamWall, ForHeat, DesignDay with { InsideHumidity = Ratio.FromPercent(95) }).Value.OnInnerSurface);
    }

    [Fact]
    public void Vapour_from_a_hot_outside_condenses_too()
    {
        // A cold store: 35 °C 70 % outside, −20 °C inside, tight on the inside.
        ImmutableArray<WallLayer> store = [new("steel sheet", R(0.0001), Length.FromMeters(1500)), Layer("foam", 100, 0.024, 60), Layer("render", 10, 0.8, 15)];
        var found = Glaser.Steady(store, ForHeat, new WallClimate(C(-20), Ratio.FromPercent(80), C(35), Ratio.FromPercent(70))).Value.Interfaces;

        Assert.Equal(("steel sheet", "foam"), (found[0].Inner, found[0].Outer));
    }

    private static ImmutableArray<ClimateMonth> Months(int winter, WallClimate cold, WallClimate mild) =>
        [.. Enumerable.Range(1, 12).Select(i => new ClimateMonth($"month {i}", Duration.FromDays(30), i <= winter ? cold : mild))];

    [Fact]
    public void A_year_worked_by_hand_fills_and_dries()
    {
        // Wool wall, ISO's formula. Cold months: p_i 1168.48, p_c (−8.700 °C) 290.96, p_e 207.46 Pa, s 0.215 and 0.55 m:
        // g = 2e-10 (877.52/0.215 − 83.50/0.55) = 7.8594e-7 kg/(m² s): 2.0372 kg in 30 days. Mild months, 20 °C and 50 % on both sides:
        // dries 2e-10 · 1168.48 (1/0.215 + 1/0.55) = 1.51186e-6: 3.9187 kg. Months 12 (cold), 1, 2 wet: 2.037, 4.074, 6.111; then 2.193, 0.
        var mild = new WallClimate(C(20), Ratio.FromPercent(50), C(20), Ratio.FromPercent(50));
        var months = Months(2, DesignDay, mild).SetItem(11, new ClimateMonth("month 12", Duration.FromDays(30), DesignDay));
        var year = Glaser.Year(WoolWall, ForHeat, months).Value;

        Assert.True(year.Condenses);
        Assert.Equal("month 12", year.FirstMonth);
        Assert.Equal(["month 12", "month 1", "month 2", "month 3"], year.Months.Select(row => row.Month));
        Assert.Equal([2.037, 4.074, 6.111, 2.193], year.Months.Select(row => Math.Round(row.Held.KilogramsPerSquareMeter, 3)));
        Assert.Equal(6.111, year.Most.KilogramsPerSquareMeter, 1e-3);
        Assert.True(year.DriesOut);
    }

    [Fact]
    public void A_wall_that_is_cold_all_year_gathers_water()
    {
        var year = Glaser.Year(WoolWall, ForHeat, Months(12, DesignDay, DesignDay)).Value;

        Assert.False(year.DriesOut);
        Assert.Equal("month 1", year.FirstMonth);
        Assert.Equal(12 * 2.0372, year.Left.KilogramsPerSquareMeter, 0.003);
        Assert.Equal(year.Left, year.Most);
        Assert.False(Glaser.Year(FoamWall, ForHeat, Months(12, DesignDay with { InsideHumidity = Ratio.FromPercent(20) }, DesignDay)).Value.Condenses);
    }

    [Fact]
    public void A_bridged_wall_worked_by_hand_comes_out()
    {
        // 15 % timber 100 mm (0.13) in foam 100 mm (0.025), board 12 mm (0.25) inside. R_T: timber 0.13 + 0.048 + 0.76923 + 0.04 = 0.98723,
        // foam 4.218. Upper 1/(0.15/0.98723 + 0.85/4.218) = 2.8300; layer 1/(0.15/0.76923 + 0.85/4) = 2.4540, lower 2.6720; mean 2.7510.
        var board = Layer("board", 12, 0.25, 10);
        ImmutableArray<WallSection> sections =
        [
            new(Ratio.FromPercent(15), [board, Layer("timber", 100, 0.13, 50)]), new(Ratio.FromPercent(85), [board, Layer("foam", 100, 0.025, 60)]),
        ];
        Assert.Equal(2.7510, Layers.BridgedResistance(sections, ForHeat).Value.Resistance.SquareMeterKelvinsPerWatt, 1e-3);

        var steel = sections.SetItem(0, new WallSection(Ratio.FromPercent(15), [board, Layer("steel", 100, 50, 1e6)]));
        Assert.Equal("upper over lower limit", Layers.BridgedResistance(steel, ForHeat).Refusal!.Input);
        Assert.Equal(Layers.Resistance(FoamWall, ForHeat).Value.Resistance.SquareMeterKelvinsPerWatt, Layers.BridgedResistance([new(Ratio.FromPercent(100), FoamWall)], ForHeat).Value.Resistance.SquareMeterKelvinsPerWatt, 1e-12);
    }

    [Fact]
    public void More_foam_never_lowers_the_surface_temperature_and_more_humidity_never_dries()
    {
        Gen.Select(Gen.Double[10, 200], Gen.Double[1, 100], Gen.Double[0.2, 0.8], Gen.Double[0, 0.2], Gen.Double[-30, 10]).Holds(c =>
        {
            var (thick, more, humidity, wetter, outside) = c;
            ImmutableArray<WallLayer> Wall(double foam) => FoamWall.SetItem(1, Layer("foam", foam, 0.024, 60));
            double Water(double phi) => Glaser.Steady(Wall(thick), ForHeat, DesignDay with { InsideHumidity = Ratio.FromDecimalFractions(phi), Outside = C(outside) }).Value.Interfaces.Sum(at => at.Rate.KilogramsPerSecondPerSquareMeter);
            Assert.True(Layers.SurfaceFactor(Wall(thick + more), ForHeat).Value > Layers.SurfaceFactor(Wall(thick), ForHeat).Value);
            Assert.True(Water(humidity + wetter) >= Water(humidity));
            Assert.True(Water(humidity) >= 0);
        });
    }

    [Fact]
    public void Metric_and_inch_units_give_the_same_wall()
    {
        var metric = Layer("foam", 76.2, 0.024, 60);
        var inches = Layers.Layer("foam", Length.FromInches(3), ThermalConductivity.FromBtusPerHourFootFahrenheit(ThermalConductivity.FromWattsPerMeterKelvin(0.024).BtusPerHourFootFahrenheit), 60).Value;

        Assert.Equal(metric.Resistance.SquareMeterKelvinsPerWatt, inches.Resistance.SquareMeterKelvinsPerWatt, 1e-12);
        Assert.Equal(metric.DiffusionEquivalent.Meters, inches.DiffusionEquivalent.Meters, 1e-12);
    }

    [Fact]
    public void Impossible_walls_and_climates_are_refused_by_name()
    {
        var lambda = ThermalConductivity.FromWattsPerMeterKelvin(0.024);
        Assert.Equal("thickness of foam", Layers.Layer("foam", Length.Zero, lambda, 60).Refusal!.Input);
        Assert.Equal("conductivity of foam", Layers.Layer("foam", Length.FromMillimeters(1), ThermalConductivity.Zero, 60).Refusal!.Input);
        Assert.Equal("diffusion factor of foam", Layers.Layer("foam", Length.FromMillimeters(1), lambda, double.NaN).Refusal!.Input);
        Assert.Equal("layers", Layers.Resistance([], ForHeat).Refusal!.Input);
        Assert.Equal("inside surface resistance", Layers.Resistance(FoamWall, ForHeat with { Inside = R(0) }).Refusal!.Input);
        Assert.Equal("shares together", Layers.BridgedResistance([new(Ratio.FromPercent(50), FoamWall)], ForHeat).Refusal!.Input);
        Assert.Equal("inside air", Layers.Temperatures(FoamWall, ForHeat, C(150), C(0)).Refusal!.Input);
        Assert.Equal("inside air", Layers.Required(C(0), Ratio.FromPercent(50), C(10), Ratio.FromPercent(80)).Refusal!.Input);
        Assert.Equal("relative humidity", Layers.Required(C(20), Ratio.Zero, C(-10), Ratio.FromPercent(80)).Refusal!.Input);
        Assert.Equal("outside air", Glaser.Steady(FoamWall, ForHeat, DesignDay with { Outside = C(-90) }).Refusal!.Input);
        Assert.Equal("inside relative humidity", Glaser.Steady(FoamWall, ForHeat, DesignDay with { InsideHumidity = Ratio.FromPercent(101) }).Refusal!.Input);
        Assert.Equal("s_d of all layers", Glaser.Steady([new("bare", R(1), Length.Zero)], ForHeat, DesignDay).Refusal!.Input);
        Assert.Equal("saturation pressure", Glaser.Steady(FoamWall, ForHeat, DesignDay, _ => Pressure.FromPascals(-1)).Refusal!.Input);
        Assert.Equal("months", Glaser.Year(FoamWall, ForHeat, []).Refusal!.Input);
        Assert.Equal("temperature", Layers.SaturationPressure(C(101)).Refusal!.Input);
    }
}
