using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class FinTests
{
    private static Temperature C(double value) => Temperature.FromDegreesCelsius(value);

    private static FinBar Rod(double millimeters, double k, double h) => new(
        Area.FromSquareMillimeters(Math.PI * millimeters * millimeters / 4), Length.FromMillimeters(Math.PI * millimeters), ThermalConductivity.FromWattsPerMeterKelvin(k), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(h));

    [Fact]
    public void A_copper_rod_between_two_temperatures_comes_out()
    {
        // Handbook 7 section 7 (statement read, answers recomputed there): D 1 mm, L 25 mm, ends 100/0 °C, air 0 °C, h 100, k 400:
        // mL 0.7906, base 1.508 W, tip 1.135 W, convected 0.373 W.
        var result = Fin.HeldTip(Rod(1, 400, 100), Length.FromMillimeters(25), C(100), C(0), C(0)).Value;

        Assert.Equal(0.7906, result.Slope.InverseMeters * 0.025, 1e-4);
        Assert.Equal(1.508, (double)result.HeatAtBase.Watts, 1e-3);
        Assert.Equal(1.135, (double)result.HeatAtTip.Watts, 1e-3);
        Assert.Equal(0.373, (double)(result.HeatAtBase.Watts - result.HeatAtTip.Watts), 1e-3);
    }

    [Fact]
    public void A_rod_has_the_published_temperature_in_its_middle()
    {
        // Handbook 7 section 7 (statement read): D 1 mm, L 30 mm, k 380, ends 132/0 °C, h 100: m 32.44, middle 58.9 °C, 1.704 W.
        var result = Fin.HeldTip(Rod(1, 380, 100), Length.FromMillimeters(30), C(132), C(0), C(0)).Value;

        Assert.Equal(32.44, result.Slope.InverseMeters, 0.01);
        Assert.Equal(58.9, result.Middle.DegreesCelsius, 0.05);
        Assert.Equal(1.704, (double)result.HeatAtBase.Watts, 1e-3);
    }

    [Theory]
    // Textbook (answers 8.3/5.6/1.6 W from memory; recomputed in handbook 7 section 7): long 5 mm rods, 100 °C in air at 25 °C, h 100.
    [InlineData(398, 14.18, 8.31)]
    [InlineData(180, 21.08, 5.59)]
    [InlineData(14, 75.59, 1.56)]
    public void Long_rods_give_off_the_textbook_heat(double k, double slope, double watts)
    {
        var result = Fin.FreeTip(Rod(5, k, 100), Length.FromMeters(1), C(100), C(25)).Value;

        Assert.Equal(slope, result.Slope.InverseMeters, 0.01);
        Assert.Equal(watts, (double)result.HeatAtBase.Watts, 0.006);
    }

    [Theory]
    // Handbook 7 section 7 (statement read): D 20 mm, L 100 mm, h 25; corrected length L + D/4.
    [InlineData(385, 3.604, 0.955)]
    [InlineData(17, 17.15, 0.526)]
    [InlineData(0.8, 79.06, 0.120)]
    public void Fins_have_the_published_efficiency(double k, double slope, double efficiency)
    {
        var result = Fin.FreeTip(Rod(20, k, 25), Length.FromMillimeters(105), C(100), C(20)).Value;

        Assert.Equal(slope, result.Slope.InverseMeters, 0.01);
        Assert.Equal(efficiency, result.Efficiency!.Value.DecimalFractions, 1e-3);
    }

    [Fact]
    public void Impossible_fins_are_refused_by_name()
    {
        Assert.Equal("length", Fin.FreeTip(Rod(5, 50, 10), Length.Zero, C(20), C(0)).Refusal!.Input);
        Assert.Equal("m L at most 300", Fin.HeldTip(Rod(1, 0.1, 1000), Length.FromMeters(1), C(20), C(10), C(0)).Refusal!.Allowed);
        Assert.Equal("cross-section", Fin.FreeTip(Rod(5, 50, 10) with { CrossSection = Area.Zero }, Length.FromMeters(1), C(20), C(0)).Refusal!.Input);
        Assert.Equal("conductivity", Fin.FreeTip(Rod(5, 0, 10), Length.FromMeters(1), C(20), C(0)).Refusal!.Input);
        Assert.Equal("surface coefficient", Fin.FreeTip(Rod(5, 50, 0), Length.FromMeters(1), C(20), C(0)).Refusal!.Input);
    }
}

public class SteelBridgeTests
{
    private static readonly Area Steel = Area.FromSquareCentimeters(28.5);
    private static readonly ThermalConductivity Conductivity = ThermalConductivity.FromWattsPerMeterKelvin(50);
    private static readonly Length Insulation = Length.FromMillimeters(150);

    private static SteelSide Side(double air, double h, double exposed = 2, SteelWrap? wrap = null) => new(
        Temperature.FromDegreesCelsius(air), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(h), Length.FromMeters(0.77), Length.FromMeters(exposed), wrap);

    private static SteelWrap Wrap(double along, double millimeters = 50) => new(Length.FromMeters(along), Length.FromMillimeters(millimeters), ThermalConductivity.FromWattsPerMeterKelvin(0.025));

    private static SteelBridgeResult Bridge(SteelSide inside, SteelSide outside)
    {
        var answer = SteelBridge.Temperatures(Steel, Conductivity, Insulation, inside, outside);
        Assert.True(answer.HasValue, answer.Refusal?.ToString());
        return answer.Value;
    }

    [Fact]
    public void The_formula_of_the_handbook_worked_by_hand()
    {
        // Both sides long: Y = √(hPkA) tanh(mL): inside √(8·0.77·50·0.00285) = 0.93691, m 6.5751, tanh(13.15) = 1; outside h 25:
        // 1.65624. L/(kA) = 0.15/0.1425 = 1.05263. Sum 1.06734 + 1.05263 + 0.60378 = 2.72375; 30 K: T_in = 20 − 30·1.06734/2.72375 = 8.244.
        var result = Bridge(Side(20, 8), Side(-10, 25));

        Assert.Equal(8.244, result.InsideFace.DegreesCelsius, 2e-3);
        Assert.Equal(30 / 2.72375, (double)result.Heat.Watts, 2e-3);
        Assert.Equal(-10 + 30 * 0.60378 / 2.72375, result.OutsideFace.DegreesCelsius, 2e-3);
        Assert.Equal(result.InsideFace, result.BareInside);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.5, 0)]
    [InlineData(0, 0.6)]
    [InlineData(0.3, 1.2)]
    [InlineData(1.5, 1.5)]
    public void The_formula_agrees_with_a_numerical_solution(double wrapInside, double wrapOutside)
    {
        var inside = Side(20, 8, 1.5, wrapInside > 0 ? Wrap(wrapInside) : null);
        var outside = Side(-10, 25, 1.5, wrapOutside > 0 ? Wrap(wrapOutside) : null);
        var (face, bare) = Numerical(inside, outside);
        var result = Bridge(inside, outside);

        Assert.Equal(face, result.InsideFace.DegreesCelsius, 0.02);
        Assert.Equal(bare, result.BareInside.DegreesCelsius, 0.02);
    }

    /// <summary>The same bar cut into cells of 1 mm: conduction along it, film or wrap to the air at each cell.</summary>
    private static (double Face, double Bare) Numerical(SteelSide inside, SteelSide outside)
    {
        const double cell = 0.001;
        var (n1, n2) = ((int)Math.Round(inside.Exposed.Meters / cell), (int)Math.Round(Insulation.Meters / cell));
        var n = n1 + n2 + (int)Math.Round(outside.Exposed.Meters / cell);
        var along = Conductivity.WattsPerMeterKelvin * Steel.SquareMeters / cell;
        double[] diagonal = new double[n], right = new double[n];
        for (var i = 0; i < n; i++)
        {
            var side = i < n1 ? inside : outside;
            var away = i < n1 ? (n1 - i - 0.5) * cell : (i - n1 - n2 + 0.5) * cell;
            var h = side.Film.WattsPerSquareMeterKelvin;
            if (side.Wrap is { } wrap && away < wrap.Along.Meters)
                h = 1 / (1 / h + wrap.Thickness.Meters / wrap.Conductivity.WattsPerMeterKelvin);
            var loss = i >= n1 && i < n1 + n2 ? 0 : h * side.Perimeter.Meters * cell;
            diagonal[i] = loss + along * ((i > 0 ? 1 : 0) + (i + 1 < n ? 1 : 0));
            right[i] = loss * side.Air.DegreesCelsius;
        }

        for (var i = 1; i < n; i++)
        {
            var m = along / diagonal[i - 1];
            diagonal[i] -= m * along;
            right[i] += m * right[i - 1];
        }

        var t = new double[n];
        t[n - 1] = right[n - 1] / diagonal[n - 1];
        for (var i = n - 2; i >= 0; i--)
            t[i] = (right[i] + along * t[i + 1]) / diagonal[i];
        var end = n1 - (int)Math.Round((inside.Wrap?.Along.Meters ?? 0) / cell);
        return ((t[n1 - 1] + t[n1]) / 2, end == 0 ? t[0] : (t[end - 1] + t[end]) / 2);
    }

    [Fact]
    public void A_warm_side_wrap_makes_the_steel_under_it_colder_and_a_cold_side_wrap_warmer()
    {
        var plain = Bridge(Side(20, 8), Side(-10, 25));
        var warm = Bridge(Side(20, 8, 2, Wrap(0.6)), Side(-10, 25));
        var cold = Bridge(Side(20, 8), Side(-10, 25, 2, Wrap(0.6)));

        Assert.True(warm.InsideFace.DegreesCelsius < plain.InsideFace.DegreesCelsius - 3);
        Assert.True(warm.BareInside > plain.BareInside);
        Assert.True(cold.InsideFace.DegreesCelsius > plain.InsideFace.DegreesCelsius + 2);
    }

    [Fact]
    public void Longer_wraps_and_more_insulation_work_one_way()
    {
        Gen.Select(Gen.Double[0.05, 1], Gen.Double[0.05, 0.9], Gen.Double[5, 100], Gen.Double[-30, 15]).Holds(c =>
        {
            var (along, more, thick, air) = c;
            SteelBridgeResult Cold(double w) => Bridge(Side(20, 8), Side(air, 25, 2, Wrap(w, thick)));
            SteelBridgeResult Warm(double w) => Bridge(Side(20, 8, 2, Wrap(w, thick)), Side(air, 25));
            Assert.True(Cold(along + more).InsideFace >= Cold(along).InsideFace);
            Assert.True(Warm(along + more).InsideFace <= Warm(along).InsideFace);
            Assert.True(Warm(along + more).BareInside >= Warm(along).BareInside);
            var plain = Bridge(Side(20, 8), Side(air, 25));
            Assert.InRange(plain.InsideFace.DegreesCelsius, air, 20);
            Assert.InRange(plain.OutsideFace.DegreesCelsius, air, plain.InsideFace.DegreesCelsius);
        });
    }

    [Fact]
    public void The_least_wrap_reaches_the_limit_and_no_further()
    {
        WrapNeeded Cold(double least) => SteelBridge.LeastWrap(
            along => SteelBridge.Temperatures(Steel, Conductivity, Insulation, Side(20, 8), Side(-10, 25, 2, along > Length.Zero ? Wrap(along.Meters) : null)),
            Length.FromMeters(2), result => result.InsideFace, Temperature.FromDegreesCelsius(least)).Value;

        var enough = Cold(10);
        Assert.True(enough.Reaches);
        Assert.Equal(10, enough.With.InsideFace.DegreesCelsius, 1e-6);
        Assert.InRange(enough.Along.Meters, 0.01, 1.9);
        Assert.True(Bridge(Side(20, 8), Side(-10, 25, 2, Wrap(enough.Along.Meters * 0.99))).InsideFace.DegreesCelsius < 10);

        var never = Cold(19.9);
        Assert.False(never.Reaches);
        Assert.Equal(2, never.Along.Meters, 1e-12);
    }

    [Fact]
    public void Impossible_bridges_are_refused_by_name()
    {
        string? Refused(SteelSide inside, SteelSide outside) => SteelBridge.Temperatures(Steel, Conductivity, Insulation, inside, outside).Refusal?.Input;

        Assert.Equal("exposed length inside", Refused(Side(20, 8, 0), Side(-10, 25)));
        Assert.Equal("wrapped length outside", Refused(Side(20, 8), Side(-10, 25, 1, Wrap(1.1))));
        Assert.Equal("thickness of the wrap inside", Refused(Side(20, 8, 2, Wrap(1, 0)), Side(-10, 25)));
        Assert.Equal("surface coefficient", Refused(Side(20, 0), Side(-10, 25)));
        Assert.Equal("air outside", Refused(Side(20, 8), Side(-200, 25)));
        Assert.Equal("length within the insulation", SteelBridge.Temperatures(Steel, Conductivity, Length.Zero, Side(20, 8), Side(-10, 25)).Refusal!.Input);
        Assert.Equal("cross-section", SteelBridge.Temperatures(Area.Zero, Conductivity, Insulation, Side(20, 8), Side(-10, 25)).Refusal!.Input);
    }
}
