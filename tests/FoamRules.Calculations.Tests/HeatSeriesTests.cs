using System.Globalization;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class HeatSeriesTests
{
    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    public static TheoryData<double, double, double, double, double, double> OneTerm()
    {
        var data = new TheoryData<double, double, double, double, double, double>();
        foreach (var row in CheckValues.Read("one-term-conduction.csv"))
            data.Add(Number(row["biot"]), Number(row["wall_zeta1"]), Number(row["wall_c1"]), Number(row["cylinder_zeta1"]), Number(row["cylinder_c1"]), Number(row["tolerance"]));
        return data;
    }

    public static TheoryData<double, double, double, double, double, double> Exact()
    {
        var data = new TheoryData<double, double, double, double, double, double>();
        foreach (var row in CheckValues.Read("slab-and-cylinder.csv"))
            data.Add(Number(row["biot"]), Number(row["fourier"]), Number(row["wall_centre"]), Number(row["wall_surface"]), Number(row["cylinder_centre"]), Number(row["cylinder_surface"]));
        return data;
    }

    private static double Theta(CoolingShape shape, double? biot, double fourier, double place) =>
        HeatSeries.Theta(shape, biot, fourier, place).Value.DecimalFractions;

    [Theory]
    [MemberData(nameof(OneTerm))]
    public void The_first_term_agrees_with_the_published_table(double biot, double wallRoot, double wallC, double cylinderRoot, double cylinderC, double tolerance)
    {
        var wall = HeatSeries.Term(CoolingShape.PlaneWall, biot, 1).Value;
        var cylinder = HeatSeries.Term(CoolingShape.LongCylinder, biot, 1).Value;

        Assert.Equal(wallRoot, wall.Root, tolerance);
        Assert.Equal(wallC, wall.Coefficient, tolerance);
        Assert.Equal(cylinderRoot, cylinder.Root, tolerance);
        Assert.Equal(cylinderC, cylinder.Coefficient, tolerance);
    }

    [Theory]
    [MemberData(nameof(Exact))]
    public void The_series_agrees_with_the_tabled_values(double biot, double fourier, double wallCentre, double wallSurface, double cylinderCentre, double cylinderSurface)
    {
        Assert.Equal(wallCentre, Theta(CoolingShape.PlaneWall, biot, fourier, 0), 1e-5);
        Assert.Equal(wallSurface, Theta(CoolingShape.PlaneWall, biot, fourier, 1), 1e-5);
        Assert.Equal(cylinderCentre, Theta(CoolingShape.LongCylinder, biot, fourier, 0), 1e-5);
        Assert.Equal(cylinderSurface, Theta(CoolingShape.LongCylinder, biot, fourier, 1), 1e-5);
        Assert.Equal(wallCentre * wallSurface, Theta(CoolingShape.SquareBar, biot, fourier, 1), 2e-5);
    }

    [Fact]
    public void The_long_cylinder_example_gives_the_series_answer_and_not_the_one_term_answer()
    {
        // Published example (read; handbook 7 section 2.4): r 0.175 m, k 14.9, α 3.95e-6, h 60, 400 to 150 °C, 20 min: 390 °C by
        // one term at Fo 0.155, where it does not hold. The series gives 385.7 °C. ρ c is set so that α is 3.95e-6.
        var steel = new ThermalProperties(ThermalConductivity.FromWattsPerMeterKelvin(14.9), Density.FromKilogramsPerCubicMeter(14.9 / 3.95e-6 / 500), SpecificEntropy.FromJoulesPerKilogramKelvin(500));
        var hot = HeatSeries.At(
            CoolingShape.LongCylinder, Length.FromMeters(0.175), steel, new AirFilm(Temperature.FromDegreesCelsius(150), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(60)),
            Temperature.FromDegreesCelsius(400), Duration.FromMinutes(20), 0);

        Assert.Equal(385.7, hot.Value.DegreesCelsius, 0.05);

        var term = HeatSeries.Term(CoolingShape.LongCylinder, 60 * 0.175 / 14.9, 1).Value;
        Assert.Equal(390.18, 150 + 250 * term.Coefficient * Math.Exp(-term.Root * term.Root * 0.15478), 0.02);
    }

    [Theory]
    // Textbook plates (handbook 7 section 2.4, statements from memory; answers recomputed there): heated, so start is below ambient.
    [InlineData(0.02, 110, 33.9e-6, 120, 20, 500, 420, 1, 279.6)]
    [InlineData(0.04, 63.9, 18.8e-6, 500, -20, 60, 480, 0, 43.0)]
    [InlineData(0.04, 63.9, 18.8e-6, 500, -20, 60, 480, 1, 45.4)]
    public void Textbook_plates_come_out(double length, double k, double diffusivity, double h, double start, double ambient, double seconds, double place, double expected)
    {
        var metal = new ThermalProperties(ThermalConductivity.FromWattsPerMeterKelvin(k), Density.FromKilogramsPerCubicMeter(k / diffusivity / 500), SpecificEntropy.FromJoulesPerKilogramKelvin(500));
        var air = new AirFilm(Temperature.FromDegreesCelsius(ambient), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(h));

        Assert.Equal(expected, HeatSeries.At(CoolingShape.PlaneWall, Length.FromMeters(length), metal, air, Temperature.FromDegreesCelsius(start), Duration.FromSeconds(seconds), place).Value.DegreesCelsius, 0.06);
    }

    [Fact]
    public void A_held_surface_is_the_limit_of_a_large_Biot_number()
    {
        // Bi ∞: ζ₁ π/2 and 2.4048 (standard tables): at Fo 0.5 the middle of a wall is 0.37077, of a cylinder 0.0889.
        Assert.Equal(4 / Math.PI * (Math.Exp(-Math.PI * Math.PI / 8) - Math.Exp(-9 * Math.PI * Math.PI / 8) / 3), Theta(CoolingShape.PlaneWall, null, 0.5, 0), 1e-6);
        Assert.Equal(Theta(CoolingShape.LongCylinder, 1e6, 0.5, 0), Theta(CoolingShape.LongCylinder, null, 0.5, 0), 1e-5);
        Assert.Equal(0, Theta(CoolingShape.PlaneWall, null, 0.5, 1), 1e-12);
    }

    [Fact]
    public void Early_on_a_wall_cools_like_a_half_space()
    {
        // Half-space, surface held: θ = erf(y/(2√(αt))) (standard, from memory, certain); at x 0.9 and Fo 0.001, y = 0.1.
        Assert.Equal(MathNet.Numerics.SpecialFunctions.Erf(0.1 / (2 * Math.Sqrt(0.001))), Theta(CoolingShape.PlaneWall, null, 0.001, 0.9), 1e-9);
    }

    [Fact]
    public void A_body_never_warms_up_again_and_is_coldest_at_its_surface()
    {
        var shapes = Gen.Enum<CoolingShape>();
        Gen.Select(shapes, Gen.Double[0.05, 200], Gen.Double[0.01, 2], Gen.Double[0, 0.9], Gen.Double[0.01, 1]).Holds(c =>
        {
            var (shape, biot, fourier, place, more) = c;
            var theta = Theta(shape, biot, fourier, place);
            Assert.InRange(theta, 0, 1);
            Assert.True(Theta(shape, biot, fourier + more, place) <= theta);
            Assert.True(Theta(shape, biot, fourier, place + 0.1) <= theta + 1e-12);
        }, 60);
    }

    [Fact]
    public void Outside_the_range_the_answer_is_a_refusal_that_names_it()
    {
        Assert.Equal("0.0001 to 1,000,000", HeatSeries.Theta(CoolingShape.PlaneWall, 0, 1, 0).Refusal!.Allowed);
        Assert.Equal("Biot number", HeatSeries.Theta(CoolingShape.PlaneWall, double.NaN, 1, 0).Refusal!.Input);
        Assert.Equal("Fourier number", HeatSeries.Theta(CoolingShape.PlaneWall, 1, 1e-7, 0).Refusal!.Input);
        Assert.Equal("Fourier number", HeatSeries.Theta(CoolingShape.PlaneWall, 1, -1, 0).Refusal!.Input);
        Assert.Equal("Fourier number", HeatSeries.Theta(CoolingShape.PlaneWall, 1, double.PositiveInfinity, 0).Refusal!.Input);
        Assert.Equal("place", HeatSeries.Theta(CoolingShape.PlaneWall, 1, 1, 1.1).Refusal!.Input);
        Assert.Equal("shape", HeatSeries.Term(CoolingShape.SquareBar, 1, 1).Refusal!.Input);
        Assert.Equal("term", HeatSeries.Term(CoolingShape.PlaneWall, 1, 0).Refusal!.Input);
        Assert.Equal(1, Theta(CoolingShape.PlaneWall, 1, 0, 0.5));
    }
}
