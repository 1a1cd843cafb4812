using MathNet.Numerics.LinearRegression;

namespace FoamRules.Calculations.Tests;

/// <summary>
/// NIST Statistical Reference Datasets, linear regression: Norris, Pontius, NoInt1, NoInt2 with their certified values.
/// Norris, Pontius and NoInt2's certified values were read in public copies of the NIST files; NoInt1's data and values
/// are from memory (high). Only Norris is a straight line with an intercept; the others are reached as said at each test.
/// </summary>
public class WeightedLineTests
{
    private static readonly double[] NorrisY =
    [
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
        557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
    ];

    private static readonly double[] NorrisX =
    [
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6,
        556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ];

    private static readonly double[] PontiusY =
    [
        .11019, .21956, .32949, .43899, .54803, .65694, .76562, .87487, .98292, 1.09146, 1.20001, 1.30822, 1.41599, 1.52399,
        1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844, .11052, .22018, .32939, .43886, .54798, .65739, .76596, .87474,
        .98300, 1.09150, 1.20004, 1.30818, 1.41613, 1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829,
    ];

    private static double[] Ones(int n) => Enumerable.Repeat(1.0, n).ToArray();

    private static double[] Residuals(double[] x, double[] y)
    {
        var line = WeightedLine.Fit(x, y, Ones(x.Length))!;
        return x.Zip(y, (at, value) => value - line.At(at)).ToArray();
    }

    [Fact]
    public void Norris_gives_the_certified_line_and_spread()
    {
        var line = WeightedLine.Fit(NorrisX, NorrisY, Ones(36))!;

        Assert.Equal(-0.262323073774029, line.Intercept, 1e-11);
        Assert.Equal(1.00211681802045, line.Slope, 1e-13);
        Assert.Equal(0.884796396144373, Math.Sqrt(line.Variance), 1e-12);
        Assert.Equal(0.429796848199937e-3, Math.Sqrt(line.Variance / line.Sxx), 1e-15);
        Assert.Equal(0.232818234301152, Math.Sqrt(line.Variance * (1.0 / 36 + line.MeanX * line.MeanX / line.Sxx)), 1e-12);
    }

    [Fact]
    public void Pontius_gives_the_certified_square_term_by_two_straight_lines()
    {
        // y = B0 + B1 x + B2 x²: B2 is the slope of what x leaves of y over what x leaves of x² (Frisch and Waugh).
        var x = Enumerable.Range(0, 40).Select(i => 150000.0 * (i % 20 + 1)).ToArray();
        var rest = WeightedLine.Fit(Residuals(x, x.Select(v => v * v).ToArray()), Residuals(x, PontiusY), Ones(40))!;

        Assert.Equal(-0.316081871345029e-14, rest.Slope, 1e-24);
        Assert.Equal(0.205177424076185e-3, Math.Sqrt(rest.SumOfSquares / 37), 1e-13);
    }

    [Fact]
    public void NoInt1_and_NoInt2_give_the_certified_slope_when_mirrored_through_zero()
    {
        // A line through the origin is the line with an intercept through the points and their mirror images; its squares
        // are then counted twice. NoInt1 from memory (high).
        AssertMirrored(Enumerable.Range(60, 11).Select(v => (double)v).ToArray(), Enumerable.Range(130, 11).Select(v => (double)v).ToArray(), 2.07438016528926, 3.56753034006338);
        AssertMirrored([4, 5, 6], [3, 4, 4], 0.727272727272727, 0.369274472937998);
    }

    private static void AssertMirrored(double[] x, double[] y, double slope, double spread)
    {
        double[] xs = [.. x, .. x.Select(v => -v)], ys = [.. y, .. y.Select(v => -v)];
        var line = WeightedLine.Fit(xs, ys, Ones(xs.Length))!;

        Assert.Equal(slope, line.Slope, 1e-13);
        Assert.Equal(0, line.Intercept, 1e-12);
        Assert.Equal(spread, Math.Sqrt(line.SumOfSquares / 2 / (x.Length - 1)), 1e-12);
    }

    [Fact]
    public void Weights_agree_with_another_implementation()
    {
        double[] x = [3, 5, 6, 9], y = [41, 78, 88, 141], w = [1, 0.25, 2, 0.5];
        var other = WeightedRegression.Weighted(x.Select(v => (new[] { v }, y[Array.IndexOf(x, v)])).ToArray(), w, intercept: true);
        var line = WeightedLine.Fit(x, y, w)!;

        Assert.Equal(other[0], line.Intercept, 1e-10);
        Assert.Equal(other[1], line.Slope, 1e-10);
    }

    [Fact]
    public void One_duration_gives_no_line() => Assert.Null(WeightedLine.Fit([4, 4, 4], [60, 62, 61], Ones(3)));
}
