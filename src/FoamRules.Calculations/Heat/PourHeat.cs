using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>The inside of a filled section, square to its length.</summary>
public abstract record PourSection
{
    private PourSection()
    {
    }

    /// <summary>A rectangular or square inside.</summary>
    /// <param name="Width">Inside width, 1 mm to 5 m.</param>
    /// <param name="Depth">Inside depth, 1 mm to 5 m.</param>
    public sealed record Rectangular(Length Width, Length Depth) : PourSection;

    /// <summary>A round inside.</summary>
    /// <param name="Diameter">Inside diameter, 1 mm to 5 m.</param>
    public sealed record Round(Length Diameter) : PourSection;
}

/// <summary>A pour and what it is judged by. The limits come from the rule set.</summary>
/// <param name="Section">The inside of the section.</param>
/// <param name="Height">Height of the pour after rise, 1 mm to 100 m; cold to air on top, insulated below.</param>
/// <param name="Foam">The foam as it lies there.</param>
/// <param name="Mix">Temperature of the mix.</param>
/// <param name="AdiabaticRise">Adiabatic rise, 0 to 300 K.</param>
/// <param name="Surroundings">Temperature of the walls and of the air above, held for good.</param>
/// <param name="WallFilm">Coefficient from the foam's face to the surroundings; null holds the walls at their temperature.</param>
/// <param name="TopFilm">Coefficient on top; null holds the top at the surroundings' temperature.</param>
/// <param name="HotAbove">The temperature above which a point counts as hot; above the surroundings.</param>
/// <param name="CooledTo">Share of the rise over the surroundings that is left when the foam counts as cooled.</param>
public sealed record PourHeatCase(
    PourSection Section,
    Length Height,
    ThermalProperties Foam,
    Temperature Mix,
    TemperatureDelta AdiabaticRise,
    Temperature Surroundings,
    HeatTransferCoefficient? WallFilm,
    HeatTransferCoefficient? TopFilm,
    Temperature HotAbove,
    Ratio CooledTo);

/// <summary>What the heat in a pour does.</summary>
/// <param name="TimeHot">How long its hottest point, the middle of its foot, stays above the threshold.</param>
/// <param name="CooledAfter">When that point has only the given share of its rise left.</param>
/// <param name="PeakCeiling">Mix temperature plus rise.</param>
public sealed record PourHeatResult(Duration TimeHot, Duration CooledAfter, Temperature PeakCeiling);

/// <summary>
/// Calculations 4.3 and 4.4 for a pour: θ = wall(x)·wall(y)·slab(z, insulated below), or cylinder(r)·slab(z), at the middle of
/// its foot, from a uniform start at mix temperature plus rise. Steel that warms up makes it slower, not faster; a second
/// pour onto hot foam is not covered: it cools no faster than one tall pour.
/// Source: product of exact series, Incropera 5.8 (from memory, certain).
/// </summary>
public static class PourHeat
{
    private const string Source = "product of exact series, Incropera 5.8 (from memory, certain)";

    // Enough terms for any time at which the middle has begun to cool at all; before, the sum is held at 1.
    private const int Terms = 30;

    /// <summary>Time hot and cooling time of a pour.</summary>
    /// <param name="pour">The pour.</param>
    public static Calculated<PourHeatResult> Cool(PourHeatCase pour)
    {
        if (Bad(pour) is { } refusal)
            return Calculated<PourHeatResult>.Refuse(refusal);

        var (air, start) = (pour.Surroundings.DegreesCelsius, pour.Mix.DegreesCelsius + pour.AdiabaticRise.Kelvins);
        var directions = Directions(pour);
        var hot = (pour.HotAbove.DegreesCelsius - air) / (start - air);
        var result = new PourHeatResult(
            hot >= 1 ? Duration.Zero : TimeUntil(hot, directions), TimeUntil(pour.CooledTo.DecimalFractions, directions), Temperature.FromDegreesCelsius(start));
        return Calculated<PourHeatResult>.From(result,
            Of("start", "T = T_mix + ΔT", result.PeakCeiling, "heat balance, nothing lost", In("T_mix", "mix temperature", pour.Mix), In("ΔT", "adiabatic rise", pour.AdiabaticRise)),
            Of("time hot in the middle of the foot", "θ_x(t) θ_y(t) θ_z(t) = (T_hot − T_w)/(T − T_w)", result.TimeHot, Source,
                In("T_hot", "threshold", pour.HotAbove), In("T_w", "surroundings", pour.Surroundings), In("H", "height", pour.Height), In("k", "conductivity", pour.Foam.Conductivity), In("ρ", "density", pour.Foam.Density), In("c", "specific heat", pour.Foam.SpecificHeat)),
            Of("cooling time", "θ_x(t) θ_y(t) θ_z(t) = f", result.CooledAfter, Source, In("f", "share of the rise left", pour.CooledTo)));
    }

    private static Direction[] Directions(PourHeatCase pour)
    {
        var top = new Direction(CoolingShape.PlaneWall, pour.Height.Meters, pour.TopFilm, pour.Foam);
        return pour.Section switch
        {
            PourSection.Round round => [new Direction(CoolingShape.LongCylinder, round.Diameter.Meters / 2, pour.WallFilm, pour.Foam), top],
            PourSection.Rectangular box =>
            [
                new Direction(CoolingShape.PlaneWall, box.Width.Meters / 2, pour.WallFilm, pour.Foam),
                new Direction(CoolingShape.PlaneWall, box.Depth.Meters / 2, pour.WallFilm, pour.Foam),
                top,
            ],
            _ => throw new InvalidOperationException("a section that is neither round nor rectangular"),
        };
    }

    private static Duration TimeUntil(double theta, Direction[] directions)
    {
        double Left(double seconds) => directions.Aggregate(1.0, (product, direction) => product * direction.At(seconds));
        var late = 1.0;
        while (Left(late) > theta)
            late *= 2;
        return Duration.FromSeconds(HeatSeries.Bisect(seconds => theta - Left(seconds), 0, late));
    }

    private static Refusal? Bad(PourHeatCase pour)
    {
        var bad = pour.Foam.Bad()
            ?? Gate.Between("height of the pour", pour.Height, pour.Height.Meters, 0.001, 100, "1 mm to 100 m", "no pour is taller")
            ?? HeatRange.Bad("mix temperature", pour.Mix) ?? HeatRange.Bad("temperature of the surroundings", pour.Surroundings) ?? HeatRange.Bad("threshold", pour.HotAbove)
            ?? Gate.Between("adiabatic rise", pour.AdiabaticRise, pour.AdiabaticRise.Kelvins, 0, 300, "0 to 300 K", "above it the foam burns")
            ?? (pour.HotAbove > pour.Surroundings ? null : new Refusal("threshold", Measure.Of(pour.HotAbove), "above the surroundings' temperature", "foam never gets colder than they are"))
            ?? (pour.Mix.DegreesCelsius + pour.AdiabaticRise.Kelvins > pour.Surroundings.DegreesCelsius ? null : new Refusal("mix temperature", Measure.Of(pour.Mix), "with the rise, above the surroundings' temperature", "there is nothing to cool"))
            ?? Gate.Inside("share of the rise left", pour.CooledTo, pour.CooledTo.DecimalFractions, 0, 1, "above 0 and below 100 %", "cooling has no end and starts at all of it")
            ?? BadFilm("coefficient of the walls", pour.WallFilm) ?? BadFilm("coefficient on top", pour.TopFilm);
        return pour.Section switch
        {
            PourSection.Round round => bad ?? BadSize("inside diameter", round.Diameter),
            PourSection.Rectangular box => bad ?? BadSize("inside width", box.Width) ?? BadSize("inside depth", box.Depth),
            _ => bad ?? new Refusal("section", Measure.OfText("none"), "rectangular or round", "other shapes have no series here"),
        };
    }

    private static Refusal? BadSize(Said name, Length size) => Gate.Between(name, size, size.Meters, 0.001, 5, "1 mm to 5 m", "a section has an inside");

    private static Refusal? BadFilm(Said name, HeatTransferCoefficient? film) =>
        film is { } h ? Gate.Between(name, h, h.WattsPerSquareMeterKelvin, 0.001, 1e6, "0.001 to 1,000,000 W/(m² K)", "the face gives heat off") : null;

    /// <summary>One factor of the product, at its middle; the terms are found once, because time is searched.</summary>
    private sealed class Direction
    {
        private readonly (double Rate, double Coefficient)[] _terms;
        private readonly double _earliest;

        public Direction(CoolingShape shape, double length, HeatTransferCoefficient? film, ThermalProperties foam)
        {
            var perFourier = foam.Diffusivity / (length * length);
            var biot = film is { } h ? h.WattsPerSquareMeterKelvin * length / foam.K : double.PositiveInfinity;
            _terms = [.. Enumerable.Range(1, Terms).Select(n => HeatSeries.TermOf(shape, biot, n)).Select(term => (term.Root * term.Root * perFourier, term.Coefficient))];
            // Up to Fo 0.005 the middle has lost less than 1e-10.
            _earliest = 0.005 / perFourier;
        }

        public double At(double seconds)
        {
            if (seconds <= _earliest)
                return 1;
            double sum = 0;
            foreach (var (rate, coefficient) in _terms)
                sum += coefficient * Math.Exp(-rate * seconds);
            return sum;
        }
    }
}
