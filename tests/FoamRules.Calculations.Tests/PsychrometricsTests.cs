using System.Globalization;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class PsychrometricsTests
{
    public static TheoryData<double, double, double, string> SaturationRows()
    {
        var rows = new TheoryData<double, double, double, string>();
        foreach (var row in CheckValues.Read("saturation-pressure.csv"))
            rows.Add(Number(row["air_c"]), Number(row["pascal"]), Number(row["tolerance_ppm"]), row["source"]);
        return rows;
    }

    public static TheoryData<double, double, double, double> DewPointRows()
    {
        var rows = new TheoryData<double, double, double, double>();
        foreach (var row in CheckValues.Read("dew-point.csv"))
            rows.Add(Number(row["air_c"]), Number(row["relative_humidity_percent"]), Number(row["dew_point_c"]), Number(row["tolerance_k"]));
        return rows;
    }

    [Theory]
    [MemberData(nameof(SaturationRows))]
    public void Saturation_pressure_agrees_with_the_published_tables(double celsius, double pascals, double ppm, string source)
    {
        var pressure = Psychrometrics.SaturationPressure(Temperature.FromDegreesCelsius(celsius)).Value.Pascals;
        Assert.True(Math.Abs(pressure / pascals - 1) <= ppm * 1e-6, $"{pressure} Pa against {pascals} Pa of {source}");
    }

    // The formula in inch-pound units (psia, °R), worked separately: 14.70953 psia at 212 °F, 0.126543 at 41 °F.
    [Theory]
    [InlineData(212, 14.70953)]
    [InlineData(122, 1.791194)]
    [InlineData(41, 0.126543)]
    [InlineData(23, 0.058271)]
    [InlineData(-4, 0.014977)]
    public void Saturation_pressure_agrees_with_the_inch_pound_formula(double fahrenheit, double psi) =>
        Assert.Equal(psi, Psychrometrics.SaturationPressure(Temperature.FromDegreesFahrenheit(fahrenheit)).Value.PoundsForcePerSquareInch, psi * 5e-5);

    [Theory]
    [MemberData(nameof(DewPointRows))]
    public void Dew_point_agrees_with_the_check_table(double air, double humidity, double dewPoint, double tolerance)
    {
        var point = DewPoint(air, humidity);
        Assert.Equal(dewPoint, point.Temperature.DegreesCelsius, tolerance);
        // The table is the exact inversion; its own digits are reached but for the row at 0 °C, where water and ice differ by 100 ppm.
        Assert.Equal(dewPoint, point.Temperature.DegreesCelsius, air == 0 ? 0.002 : 0.0001);
        Assert.Equal(dewPoint < 0.01 ? CondensationKind.FrostPoint : CondensationKind.DewPoint, point.Kind);
    }

    [Fact]
    public void Below_freezing_humidity_is_over_water_unless_told_over_ice()
    {
        var air = Temperature.FromDegreesCelsius(-10);
        var overWater = Psychrometrics.DewPoint(air, RelativeHumidity.FromPercent(90)).Value;
        var overIce = Psychrometrics.DewPoint(air, RelativeHumidity.FromPercent(90), HumidityReference.Ice).Value;
        // WMO: 6.112 exp(17.62 × −10 ÷ 233.12) = 2.870 hPa over water, × 0.9 by hand; over ice 2.599 hPa (ISO 13788: 259.33 Pa) × 0.9.
        Assert.Equal(258.3, overWater.VapourPressure.Pascals, 0.1);
        Assert.Equal(233.9, overIce.VapourPressure.Pascals, 0.2);
        Assert.True(overIce.Temperature < overWater.Temperature);
        Assert.Equal(CondensationKind.FrostPoint, overWater.Kind);
    }

    [Fact]
    public void Air_saturated_over_ice_has_its_frost_point_at_its_own_temperature() =>
        Assert.Equal(-10, Psychrometrics.DewPoint(Temperature.FromDegreesCelsius(-10), RelativeHumidity.FromPercent(100), HumidityReference.Ice).Value.Temperature.DegreesCelsius, 1e-9);

    [Fact]
    public void Inversion_returns_the_temperature_that_gave_the_pressure() =>
        Gen.Double[0.02, 199].Holds(celsius =>
        {
            var saturated = Psychrometrics.DewPoint(Temperature.FromDegreesCelsius(celsius), RelativeHumidity.FromPercent(100)).Value;
            Assert.Equal(celsius, saturated.Temperature.DegreesCelsius, 1e-9);
        });

    [Fact]
    public void Dew_point_has_no_jump_where_ice_meets_water()
    {
        // Around the vapour pressure of the triple point, 611.657 Pa; at 20 °C (2338.80 Pa) that is 26.1526 %.
        var below = DewPoint(20, 26.1516).Temperature.DegreesCelsius;
        var above = DewPoint(20, 26.1536).Temperature.DegreesCelsius;
        Assert.InRange(above - below, 0, 0.002);
    }

    [Fact]
    public void Moister_air_never_has_a_lower_dew_point() =>
        Gen.Select(Gen.Double[-44, 60], Gen.Double[1, 99], Gen.Double[0, 1]).Holds(at =>
        {
            var (air, humidity, more) = at;
            Assert.True(DewPoint(air, humidity + more).Temperature >= DewPoint(air, humidity).Temperature);
        });

    [Fact]
    public void Fahrenheit_and_celsius_give_the_same_dew_point() =>
        Assert.Equal(
            DewPoint(25, 50).Temperature.DegreesCelsius,
            Psychrometrics.DewPoint(Temperature.FromDegreesFahrenheit(77), RelativeHumidity.FromPercent(50)).Value.Temperature.DegreesCelsius, 1e-9);

    // 12.27 °C is the dew point of 20 °C, 50 % (9.2724 °C) + 3 K, by hand.
    [Fact]
    public void Margin_is_surface_less_dew_point_and_may_be_negative()
    {
        var point = DewPoint(20, 50);
        Assert.Equal(3.0, Psychrometrics.MarginAboveDewPoint(Temperature.FromDegreesCelsius(12.2724), point).Value.Kelvins, 0.0001);
        Assert.Equal(-4.2724, Psychrometrics.MarginAboveDewPoint(Temperature.FromDegreesCelsius(5), point).Value.Kelvins, 0.0001);
    }

    [Theory]
    [InlineData(-100.1)]
    [InlineData(200.1)]
    public void Saturation_pressure_is_refused_outside_its_range(double celsius) =>
        Assert.Equal("−100 to 200 °C", Psychrometrics.SaturationPressure(Temperature.FromDegreesCelsius(celsius)).Refusal!.Allowed);

    [Theory]
    [InlineData(-100)]
    [InlineData(200)]
    public void Saturation_pressure_is_given_at_the_ends_of_its_range(double celsius) =>
        Assert.True(Psychrometrics.SaturationPressure(Temperature.FromDegreesCelsius(celsius)).HasValue);

    [Theory]
    [InlineData(20, 0)]
    [InlineData(20, -5)]
    [InlineData(20, 100.01)]
    [InlineData(-45.1, 50)]
    [InlineData(201, 50)]
    [InlineData(20, 1e-5)]
    public void Dew_point_is_refused_outside_its_range(double celsius, double humidity) =>
        Assert.False(Psychrometrics.DewPoint(Temperature.FromDegreesCelsius(celsius), RelativeHumidity.FromPercent(humidity)).HasValue);

    [Fact]
    public void Dew_point_shows_its_work() =>
        Assert.Equal(
            ["saturation pressure at air temperature", "vapour pressure", "dew point"],
            Psychrometrics.DewPoint(Temperature.FromDegreesCelsius(20), RelativeHumidity.FromPercent(50)).Steps.Select(step => step.Name));

    private static CondensationPoint DewPoint(double celsius, double humidity) =>
        Psychrometrics.DewPoint(Temperature.FromDegreesCelsius(celsius), RelativeHumidity.FromPercent(humidity)).Value;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
