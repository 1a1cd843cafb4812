using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class PourHeatTests
{
    private static ThermalProperties Foam(double density) => new(ThermalConductivity.FromWattsPerMeterKelvin(0.024), Density.FromKilogramsPerCubicMeter(density), SpecificEntropy.FromJoulesPerKilogramKelvin(1450));

    private static PourHeatCase Pour(PourSection section, double height, double density = 40) => new(
        section, Length.FromMeters(height), Foam(density), Temperature.FromDegreesCelsius(50), TemperatureDelta.FromKelvins(134), Temperature.FromDegreesCelsius(25),
        null, null, Temperature.FromDegreesCelsius(120), Ratio.FromPercent(50));

    private static PourSection.Rectangular Square(double meters) => new PourSection.Rectangular(Length.FromMeters(meters), Length.FromMeters(meters));

    [Theory]
    // Handbook 7 section 2.6: minutes to 0.5/0.25/0.1 in the middle of a long square bar, walls held, 40 kg/m³. Inside widths
    // from the design wall: 4 − 2·0.233, 6 − 2·0.349, 8 − 2·0.465, 12 − 2·0.465 in.
    [InlineData(3.534, 19, 31, 46)]
    [InlineData(5.302, 43, 69, 103)]
    [InlineData(7.070, 77, 123, 183)]
    [InlineData(11.07, 189, 301, 449)]
    public void A_long_square_fill_cools_as_the_handbook_says(double inches, double half, double quarter, double tenth)
    {
        double Cools(double share) => PourHeat.Cool(Pour(Square(inches * 0.0254), 50) with { CooledTo = Ratio.FromDecimalFractions(share) }).Value.CooledAfter.Minutes;

        Assert.Equal(half, Cools(0.5), 0.6);
        Assert.Equal(quarter, Cools(0.25), 0.8);
        Assert.Equal(tenth, Cools(0.1), 1.2);
    }

    [Theory]
    // Handbook 4: minutes above 120 °C, walls at 25 °C, 6×6, 8×8, 12×12; α 5.2e-7 (32 kg/m³) and 4.1e-7 (40 kg/m³).
    [InlineData(5.302, 32, 30)]
    [InlineData(7.070, 32, 53)]
    [InlineData(11.07, 32, 129)]
    [InlineData(5.302, 40, 37)]
    [InlineData(7.070, 40, 66)]
    [InlineData(11.07, 40, 161)]
    public void Time_hot_in_a_column_is_near_the_handbook_figures(double inches, double density, double minutes) =>
        Assert.Equal(minutes, PourHeat.Cool(Pour(Square(inches * 0.0254), 50, density)).Value.TimeHot.Minutes, 1 + 0.01 * minutes);

    [Fact]
    public void A_round_fill_cools_like_the_tabled_cylinder()
    {
        // slab-and-cylinder.csv: Bi 10, Fo 0.2: middle 0.60023. r 0.1 m: h = 10·0.024/0.1, t = 0.2 r²/α.
        var pour = Pour(new PourSection.Round(Length.FromMeters(0.2)), 50) with
        {
            WallFilm = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(2.4),
            CooledTo = Ratio.FromDecimalFractions(0.60023),
        };
        Assert.Equal(0.2 * 0.01 / (0.024 / (40 * 1450)), PourHeat.Cool(pour).Value.CooledAfter.Seconds, 1.0);
    }

    [Theory]
    [InlineData(0.999)]
    [InlineData(0.95)]
    [InlineData(0.3)]
    public void The_middle_of_a_fill_follows_the_series_from_the_beginning(double left)
    {
        var after = PourHeat.Cool(Pour(Square(0.2), 50) with { CooledTo = Ratio.FromDecimalFractions(left) }).Value.CooledAfter;
        var fourier = 0.024 / (40 * 1450) * after.Seconds / 0.01;

        Assert.Equal(left, HeatSeries.Theta(CoolingShape.SquareBar, null, fourier, 0).Value.DecimalFractions, 1e-9);
    }

    [Fact]
    public void A_low_wide_pour_cools_like_a_slab_insulated_below()
    {
        // 50 mm high, 5 m wide: only the top counts, as in a 2 in pass with the same film (calculation by layers).
        var pour = Pour(Square(5), 0.0508, 32) with { TopFilm = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(10) };

        Assert.Equal(34.4, PourHeat.Cool(pour).Value.CooledAfter.Minutes, 0.1);
    }

    [Fact]
    public void Taller_pours_than_a_third_of_the_width_hardly_cool_any_slower()
    {
        double Hot(double height) => PourHeat.Cool(Pour(Square(0.3), height)).Value.TimeHot.Minutes;

        Assert.True(Hot(0.3) > 0.97 * Hot(20));
        Assert.True(Hot(0.1) < 0.9 * Hot(20));
    }

    [Fact]
    public void Wider_taller_and_hotter_pours_are_never_hot_for_less_time()
    {
        Gen.Select(Gen.Double[0.05, 0.5], Gen.Double[0.05, 3], Gen.Double[0.001, 0.3], Gen.Double[0, 60], Gen.Bool).Holds(c =>
        {
            var (width, height, more, warmer, round) = c;
            PourHeatResult Of(double w, double h, double rise) => PourHeat.Cool(Pour(round ? new PourSection.Round(Length.FromMeters(w)) : Square(w), h) with { AdiabaticRise = TemperatureDelta.FromKelvins(rise) }).Value;
            var plain = Of(width, height, 134);
            var least = plain.TimeHot.Seconds * (1 - 1e-9); // a tall pour's top changes nothing but the rounding
            Assert.True(Of(width + more, height, 134).TimeHot.Seconds >= least);
            Assert.True(Of(width, height + more, 134).TimeHot.Seconds >= least);
            Assert.True(Of(width, height, 134 + warmer).TimeHot.Seconds >= least);
            Assert.Equal(plain.CooledAfter.Seconds, Of(width, height, 134 + warmer).CooledAfter.Seconds, 1e-6 * plain.CooledAfter.Seconds);
        }, 15);
    }

    [Fact]
    public void A_pour_that_never_gets_hot_is_hot_for_no_time() =>
        Assert.Equal(Duration.Zero, PourHeat.Cool(Pour(Square(0.2), 1) with { AdiabaticRise = TemperatureDelta.FromKelvins(60) }).Value.TimeHot);

    [Fact]
    public void Impossible_pours_are_refused_by_name()
    {
        string? Refused(PourHeatCase pour) => PourHeat.Cool(pour).Refusal?.Input;
        var pour = Pour(Square(0.2), 1);

        Assert.Equal("inside width", Refused(Pour(Square(0), 1)));
        Assert.Equal("inside diameter", Refused(Pour(new PourSection.Round(Length.FromMeters(-1)), 1)));
        Assert.Equal("height of the pour", Refused(Pour(Square(0.2), 0)));
        Assert.Equal("threshold", Refused(pour with { HotAbove = Temperature.FromDegreesCelsius(25) }));
        Assert.Equal("coefficient on top", Refused(pour with { TopFilm = HeatTransferCoefficient.Zero }));
        Assert.Equal("share of the rise left", Refused(pour with { CooledTo = Ratio.Zero }));
        Assert.Equal("mix temperature", Refused(pour with { Mix = Temperature.FromDegreesCelsius(10), AdiabaticRise = TemperatureDelta.FromKelvins(5) }));
        Assert.Equal("adiabatic rise", Refused(pour with { AdiabaticRise = TemperatureDelta.FromKelvins(301) }));
    }
}
