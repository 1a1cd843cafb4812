using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class MaterialTests
{
    // Board foot: 1 ft² × 1 in = 1/12 ft³ = 2.3597 L (construction reference).
    [Fact]
    public void One_square_foot_an_inch_thick_is_one_board_foot()
    {
        var foam = Material.VolumeOf(Area.FromSquareFeet(1), Length.FromInches(1)).Value;
        Assert.Equal(1, foam.BoardFeet, 1e-12);
        Assert.Equal(2.3597, foam.Volume.Liters, 0.00005);
    }

    // Theoretical yield table, 1,000 lb: 2.0 → 6000, 2.2 → 5455, 2.4 → 5000, 2.6 → 4615, 3.0 → 4000 bd ft.
    [Theory]
    [InlineData(2.0, 6000)]
    [InlineData(2.2, 5455)]
    [InlineData(2.4, 5000)]
    [InlineData(2.6, 4615)]
    [InlineData(3.0, 4000)]
    public void Yield_of_a_thousand_pounds_agrees_with_the_table(double density, double boardFeet) =>
        Assert.Equal(boardFeet, Material.TheoreticalYield(Mass.FromPounds(1000), Density.FromPoundsPerCubicFoot(density)).Value.BoardFeet, 0.5);

    // Mass balance: 1 bd ft at 2.0 lb/ft³ = 0.0756 kg.
    [Fact]
    public void One_board_foot_weighs_what_the_density_says() =>
        Assert.Equal(0.0756, Material.MassOf(Material.VolumeOf(Area.FromSquareFeet(1), Length.FromInches(1)).Value.Volume, Density.FromPoundsPerCubicFoot(2)).Value.Kilograms, 0.00005);

    // By hand: 1,800 lb in place, 10 % waste: 1,800 ÷ 0.9 = 2,000 lb = 2 sets of 1,000 lb; a pound more takes a third.
    [Theory]
    [InlineData(1800, 2000, 2)]
    [InlineData(1801, 2001.11, 3)]
    [InlineData(1, 1.11, 1)]
    public void Drum_sets_are_rounded_up(double pounds, double drawn, long sets)
    {
        var needed = Material.SetsFor(Mass.FromPounds(pounds), Ratio.FromPercent(10), Mass.FromPounds(1000)).Value;
        Assert.Equal(drawn, needed.Drawn.Pounds, 0.005);
        Assert.Equal(sets, needed.WholeSets);
    }

    [Fact]
    public void More_area_thickness_density_or_waste_never_takes_less_material() =>
        Gen.Select(Gen.Double[1, 500], Gen.Double[10, 300], Gen.Double[8, 60], Gen.Double[0, 0.5], Gen.Double[0, 0.4]).Holds(at =>
        {
            var (area, thickness, density, waste, more) = at;
            var drawn = Drawn(area, thickness, density, waste);
            Assert.True(Drawn(area + more, thickness, density, waste) >= drawn);
            Assert.True(Drawn(area, thickness + more, density, waste) >= drawn);
            Assert.True(Drawn(area, thickness, density + more, waste) >= drawn);
            Assert.True(Drawn(area, thickness, density, waste + more) >= drawn);
        });

    [Fact]
    public void Yield_and_mass_round_trip() =>
        Gen.Select(Gen.Double[1, 2000], Gen.Double[0.4, 4]).Holds(at =>
        {
            var (pounds, perCubicFoot) = at;
            var density = Density.FromPoundsPerCubicFoot(perCubicFoot);
            var volume = Material.TheoreticalYield(Mass.FromPounds(pounds), density).Value.Volume;
            Assert.Equal(pounds, Material.MassOf(volume, density).Value.Pounds, pounds * 1e-12);
        });

    [Fact]
    public void Inputs_outside_their_range_are_refused()
    {
        Assert.Equal("thickness", Material.VolumeOf(Area.FromSquareFeet(1), Length.FromInches(-1)).Refusal!.Input);
        Assert.Equal("area", Material.VolumeOf(Area.Zero, Length.FromInches(1)).Refusal!.Input);
        Assert.Equal("in-place density", Material.MassOf(Volume.FromLiters(1), Density.Zero).Refusal!.Input);
        Assert.Equal("waste", Material.SetsFor(Mass.FromPounds(1), Ratio.FromPercent(100), Mass.FromPounds(1000)).Refusal!.Input);
        Assert.Equal("waste", Material.SetsFor(Mass.FromPounds(1), Ratio.FromPercent(-1), Mass.FromPounds(1000)).Refusal!.Input);
        Assert.Equal("mass of a drum set", Material.SetsFor(Mass.FromPounds(1), Ratio.Zero, Mass.Zero).Refusal!.Input);
        Assert.Equal("mass of material", Material.TheoreticalYield(Mass.Zero, Density.FromPoundsPerCubicFoot(2)).Refusal!.Input);
    }

    private static Mass Drawn(double squareMetres, double millimetres, double density, double waste)
    {
        var volume = Material.VolumeOf(Area.FromSquareMeters(squareMetres), Length.FromMillimeters(millimetres)).Value.Volume;
        var mass = Material.MassOf(volume, Density.FromKilogramsPerCubicMeter(density)).Value;
        return Material.SetsFor(mass, Ratio.FromDecimalFractions(waste), Mass.FromKilograms(450)).Value.Drawn;
    }
}
