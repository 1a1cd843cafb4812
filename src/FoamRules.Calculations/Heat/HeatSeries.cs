using FoamRules.Model;
using MathNet.Numerics;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>A body that cools from a uniform temperature.</summary>
public enum CoolingShape
{
    /// <summary>A wall cooled on both faces; L is half its thickness, or all of it where one face takes no heat.</summary>
    PlaneWall,

    /// <summary>A long round bar; L is its radius.</summary>
    LongCylinder,

    /// <summary>A long square bar, the product of two walls; L is half its side, the place lies on the line from the centre to the middle of a side.</summary>
    SquareBar,
}

/// <summary>One term of a series: C e^(−ζ² Fo) f(ζ x).</summary>
/// <param name="Root">ζ.</param>
/// <param name="Coefficient">C.</param>
public sealed record SeriesTerm(double Root, double Coefficient);

/// <summary>
/// Calculation 4.4, exact solutions: θ = (T − T∞)/(T_i − T∞) = Σ Cₙ e^(−ζₙ² Fo) f(ζₙ x), Fo = αt/L², Bi = hL/k.
/// Plane wall: ζ tan ζ = Bi, C = 4 sin ζ/(2ζ + sin 2ζ), f = cos. Long cylinder: ζ J₁(ζ)/J₀(ζ) = Bi,
/// C = (2/ζ) J₁/(J₀² + J₁²), f = J₀. All terms that count are summed: the one-term answer is kelvins off below Fo 0.2.
/// Range: Bi 0.0001 to 1,000,000 (no Biot number: surface held at the ambient temperature), Fo 0 or 0.00001 and more, x 0 to 1.
/// Source: Incropera, Fundamentals of Heat and Mass Transfer, section 5.5 and table 5.1 (series standard; table read in a public copy).
/// </summary>
public static class HeatSeries
{
    private const string Source = "exact series; Incropera, Fundamentals of Heat and Mass Transfer, 5.5 and 5.6 (one-term table read, series from memory, certain)";
    private const double LeastFourier = 1e-5;

    // Terms below e^-40 add nothing to a double near 1.
    private const double NothingLeft = 40;

    /// <summary>The n-th term for a plane wall or a long cylinder.</summary>
    /// <param name="shape">Plane wall or long cylinder; a square bar has no terms of its own.</param>
    /// <param name="biot">Bi = hL/k.</param>
    /// <param name="number">1 for the first term, up to 1000.</param>
    public static Calculated<SeriesTerm> Term(CoolingShape shape, double biot, int number)
    {
        var refusal = BadBiot(biot)
            ?? (number is >= 1 and <= 1000 ? null : new Refusal("term", Measure.OfCount(number), "1 to 1000", "more are never needed"))
            ?? (shape == CoolingShape.SquareBar ? new Refusal("shape", Measure.OfText("square bar"), "plane wall or long cylinder", "a square bar is the product of two walls") : null);
        if (refusal is not null)
            return Calculated<SeriesTerm>.Refuse(refusal);
        var term = TermOf(shape, biot, number);
        return Calculated<SeriesTerm>.From(term, Of("root of the series", shape == CoolingShape.PlaneWall ? "ζ tan ζ = Bi" : "ζ J₁(ζ)/J₀(ζ) = Bi", Gate.Shown(term.Root), Source, In("Bi", "Biot number", biot), In("n", "term", number)));
    }

    /// <summary>θ: what is left of the initial difference to the surroundings.</summary>
    /// <param name="shape">The body.</param>
    /// <param name="biot">Bi = hL/k; null where the surface is held at the ambient temperature.</param>
    /// <param name="fourier">Fo = αt/L².</param>
    /// <param name="position">Place as a share of L, 0 in the middle, 1 at the surface.</param>
    public static Calculated<Ratio> Theta(CoolingShape shape, double? biot, double fourier, double position)
    {
        var refusal = (biot is { } bi ? BadBiot(bi) : null) ?? BadFourier(fourier)
            ?? Gate.Number("place", position, 0, 1, "0 (middle) to 1 (surface)", "outside the body there is none");
        if (refusal is not null)
            return Calculated<Ratio>.Refuse(refusal);
        var theta = Ratio.FromDecimalFractions(Exact(shape, biot ?? double.PositiveInfinity, fourier, position));
        return Calculated<Ratio>.From(theta, Of(
            "share of the initial difference left", "θ = Σ C e^(−ζ² Fo) f(ζ x)", theta, Source,
            biot is { } b ? In("Bi", "Biot number", b) : new Term("Bi", "Biot number", Measure.OfText("surface held")), In("Fo", "Fourier number", fourier), In("x", "place", position)));
    }

    /// <summary>The temperature at a place and time: T = T∞ + θ (T_i − T∞).</summary>
    /// <param name="shape">The body.</param>
    /// <param name="length">L of the shape, above 0.</param>
    /// <param name="properties">Its material.</param>
    /// <param name="surroundings">The fluid around it.</param>
    /// <param name="start">Its uniform initial temperature.</param>
    /// <param name="after">Time, 0 or more.</param>
    /// <param name="position">Place as a share of L.</param>
    public static Calculated<Temperature> At(
        CoolingShape shape, Length length, ThermalProperties properties, AirFilm surroundings, Temperature start, Duration after, double position)
    {
        var refusal = properties.Bad()
            ?? Gate.Between("length", length, length.Meters, 1e-6, 1000, "0.001 mm to 1 km", "a body has a size")
            ?? Gate.Between("surface coefficient", surroundings.Film, surroundings.Film.WattsPerSquareMeterKelvin, 0.001, 1e6, "0.001 to 1,000,000 W/(m² K)", "the surface gives heat off")
            ?? Gate.Between("time", after, after.Days, 0, 100_000, "0 to 100,000 days", "cooling runs forward");
        if (refusal is not null)
            return Calculated<Temperature>.Refuse(refusal);
        var biot = surroundings.Film.WattsPerSquareMeterKelvin * length.Meters / properties.K;
        var fourier = properties.Diffusivity * after.Seconds / (length.Meters * length.Meters);
        var theta = Theta(shape, biot, fourier, position);
        if (!theta.HasValue)
            return Calculated<Temperature>.Refuse(theta.Refusal!);
        var (ambient, first) = (surroundings.Air.DegreesCelsius, start.DegreesCelsius);
        var answer = Temperature.FromDegreesCelsius(ambient + theta.Value.DecimalFractions * (first - ambient));
        return Calculated<Temperature>.From(answer,
        [
            Of("Biot number", "Bi = h L/k", Gate.Shown(biot), Source, In("h", "surface coefficient", surroundings.Film), In("L", "length", length), In("k", "conductivity", properties.Conductivity)),
            Of("Fourier number", "Fo = k t/(ρ c L²)", Gate.Shown(fourier), Source, In("t", "time", after), In("ρ", "density", properties.Density), In("c", "specific heat", properties.SpecificHeat)),
            .. theta.Steps,
            Of("temperature", "T = T∞ + θ (T_i − T∞)", answer, Source, In("T∞", "ambient temperature", surroundings.Air), In("T_i", "initial temperature", start)),
        ]);
    }

    internal static SeriesTerm TermOf(CoolingShape shape, double biot, int number)
    {
        var root = shape == CoolingShape.PlaneWall ? WallRoot(biot, number) : CylinderRoot(biot, number);
        return new SeriesTerm(root, shape == CoolingShape.PlaneWall ? WallCoefficient(root) : CylinderCoefficient(root));
    }

    private static double Exact(CoolingShape shape, double biot, double fourier, double x) => shape switch
    {
        CoolingShape.PlaneWall => Wall(biot, fourier, x),
        CoolingShape.LongCylinder => Cylinder(biot, fourier, x),
        _ => Wall(biot, fourier, x) * Wall(biot, fourier, 0),
    };

    internal static double Wall(double biot, double fourier, double x)
    {
        if (fourier == 0)
            return double.IsPositiveInfinity(biot) && x >= 1 ? 0 : 1;
        double sum = 0;
        for (var n = 1; ; n++)
        {
            var root = WallRoot(biot, n);
            if (root * root * fourier > NothingLeft && n > 1)
                return Math.Clamp(sum, 0, 1);
            sum += WallCoefficient(root) * Math.Exp(-root * root * fourier) * Math.Cos(root * x);
        }
    }

    internal static double Cylinder(double biot, double fourier, double r)
    {
        if (fourier == 0)
            return double.IsPositiveInfinity(biot) && r >= 1 ? 0 : 1;
        double sum = 0;
        for (var n = 1; ; n++)
        {
            var root = CylinderRoot(biot, n);
            if (root * root * fourier > NothingLeft && n > 1)
                return Math.Clamp(sum, 0, 1);
            sum += CylinderCoefficient(root) * Math.Exp(-root * root * fourier) * SpecialFunctions.BesselJ(0, root * r);
        }
    }

    // The n-th root of ζ sin ζ = Bi cos ζ lies between (n − 1)π and (n − ½)π.
    private static double WallRoot(double biot, int n) => double.IsPositiveInfinity(biot)
        ? (n - 0.5) * Math.PI
        : Bisect(z => z * Math.Sin(z) - biot * Math.Cos(z), (n - 1) * Math.PI, (n - 0.5) * Math.PI);

    private static double WallCoefficient(double z) => 4 * Math.Sin(z) / (2 * z + Math.Sin(2 * z));

    // The n-th root of ζ J₁ = Bi J₀ lies between the (n − 1)-th zero of J₁ (0 for the first) and the n-th zero of J₀.
    private static double CylinderRoot(double biot, int n)
    {
        var high = BesselZero(0, n);
        return double.IsPositiveInfinity(biot)
            ? high
            : Bisect(z => z * SpecialFunctions.BesselJ(1, z) - biot * SpecialFunctions.BesselJ(0, z), n == 1 ? 0 : BesselZero(1, n - 1), high);
    }

    private static double CylinderCoefficient(double z)
    {
        var (j0, j1) = (SpecialFunctions.BesselJ(0, z), SpecialFunctions.BesselJ(1, z));
        return 2 / z * j1 / (j0 * j0 + j1 * j1);
    }

    // McMahon: zeros of J of order v lie near (n + v/2 − ¼)π, closer than 0.2 for the orders used here.
    private static double BesselZero(int order, int n)
    {
        var near = (n + order / 2.0 - 0.25) * Math.PI;
        return Bisect(z => SpecialFunctions.BesselJ(order, z), near - 0.3, near + 0.3);
    }

    internal static double Bisect(Func<double, double> f, double low, double high)
    {
        var rising = f(high) > 0;
        while (true)
        {
            var middle = low + (high - low) / 2;
            if (middle <= low || middle >= high)
                return middle;
            if (f(middle) > 0 == rising)
                high = middle;
            else
                low = middle;
        }
    }

    private static Refusal? BadBiot(double biot) => Gate.Number("Biot number", biot, 1e-4, 1e6, "0.0001 to 1,000,000", "outside it use a lumped body or a held surface");

    private static Refusal? BadFourier(double fourier) =>
        fourier == 0 ? null : Gate.Number("Fourier number", fourier, LeastFourier, double.MaxValue, "0, or 0.00001 and more", "the series converges too slowly in between");
}
