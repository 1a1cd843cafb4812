using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>A layer that is there before the first pass: a board, a steel sheet, or foam of another day.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Thickness">Its thickness, 0.1 mm to 1 m.</param>
/// <param name="Properties">Its material.</param>
/// <param name="Start">Its temperature when the first pass is put on.</param>
public sealed record HeatLayer(string Name, Length Thickness, ThermalProperties Properties, Temperature Start);

/// <summary>A sprayed pass: it lies there at once, at mix temperature plus the part of the rise already released.</summary>
/// <param name="Thickness">Thickness after rise, 0.1 mm to 1 m.</param>
/// <param name="Properties">The foam as it lies there.</param>
/// <param name="Mix">Temperature of the mix as it leaves the gun.</param>
/// <param name="AdiabaticRise">Rise that the reaction would give with nothing lost, 0 to 300 K.</param>
/// <param name="At">When it is put on, counted from any one start; not before the pass below it.</param>
/// <param name="ReleaseTime">
/// Time constant τ of a first-order release of the heat, at most an hour; null or 0 releases it at once, which is the safe side.
/// </param>
public sealed record FoamPass(
    Length Thickness, ThermalProperties Properties, Temperature Mix, TemperatureDelta AdiabaticRise, Duration At, Duration? ReleaseTime = null);

/// <summary>Passes on a substrate, with what they are judged by. The limits come from the rule set.</summary>
/// <param name="Substrate">Layers below the first pass, from the back to the front; may be empty.</param>
/// <param name="Back">Air behind the substrate; null for a back that takes no heat.</param>
/// <param name="Front">Air in front of the foam.</param>
/// <param name="Passes">The passes, in the order they are put on.</param>
/// <param name="HotAbove">The temperature above which a point counts as hot; above the air temperature.</param>
/// <param name="CooledTo">Share of the rise over the air that is left when foam counts as cooled, above 0 and below 100 %.</param>
/// <param name="Horizon">How long after the last pass to look, above 0 and at most 14 days.</param>
/// <param name="ReadAfter">Times after the last pass at which to read the temperatures, in order; may be empty.</param>
public sealed record PassHeatCase(
    ImmutableArray<HeatLayer> Substrate,
    AirFilm? Back,
    AirFilm Front,
    ImmutableArray<FoamPass> Passes,
    Temperature HotAbove,
    Ratio CooledTo,
    Duration Horizon,
    ImmutableArray<Duration> ReadAfter = default)
{
    /// <summary>True where both ask the same: arrays are compared entry by entry.</summary>
    public bool Equals(PassHeatCase? other) =>
        other is not null && Back == other.Back && Front == other.Front
        && (HotAbove.Kelvins, CooledTo.DecimalFractions, Horizon.Seconds) == (other.HotAbove.Kelvins, other.CooledTo.DecimalFractions, other.Horizon.Seconds)
        && Same(Substrate, other.Substrate) && Same(Passes, other.Passes) && Same(ReadAfter, other.ReadAfter);

    /// <inheritdoc/>
    public override int GetHashCode()
    {
        var hash = new HashCode();
        hash.Add(Front);
        hash.Add(Horizon.Seconds);
        foreach (var pass in Passes.IsDefault ? [] : Passes)
        {
            hash.Add(pass);
        }

        return hash.ToHashCode();
    }

    private static bool Same<T>(ImmutableArray<T> a, ImmutableArray<T> b) => (a.IsDefault ? [] : a).SequenceEqual(b.IsDefault ? [] : b);
}

/// <summary>How finely space and time are cut. A matter of numerics, not of the trade.</summary>
/// <param name="CellsPerPass">Cells in each pass, 4 to 2000.</param>
/// <param name="CellsPerLayer">Cells in each layer of the substrate, 2 to 2000.</param>
/// <param name="FirstStep">First step after a pass is put on, above 0.</param>
/// <param name="LongestStep">The step it grows to.</param>
public sealed record HeatGrid(int CellsPerPass, int CellsPerLayer, Duration FirstStep, Duration LongestStep)
{
    /// <summary>Good to 0.1 K and to 0.1 min plus a thousandth of the time, for passes of 10 to 150 mm.</summary>
    public static HeatGrid Usual { get; } = new(32, 16, Duration.FromSeconds(0.5), Duration.FromSeconds(16));
}

/// <summary>Temperatures at one moment.</summary>
/// <param name="After">Time since the last pass then on the wall was put on.</param>
/// <param name="Hottest">Hottest point of the foam.</param>
/// <param name="Surface">Face of the foam, what a surface thermometer reads.</param>
/// <param name="Back">Back of the lowest pass.</param>
public sealed record HeatReading(Duration After, Temperature Hottest, Temperature Surface, Temperature Back);

/// <summary>What becomes of one pass, counted from its own moment until the next pass.</summary>
/// <param name="CooledAfter">When the hottest point of all foam then on the wall was cooled; null if it was not by the next pass or the horizon.</param>
/// <param name="SurfaceWhenCooled">What a surface thermometer reads at that moment.</param>
/// <param name="AtNext">The temperatures just before the next pass; null for the last.</param>
public sealed record PassCooling(Duration? CooledAfter, Temperature? SurfaceWhenCooled, HeatReading? AtNext);

/// <summary>What the heat in the passes does.</summary>
/// <param name="LongestHot">Longest unbroken time that any one point stays above the threshold: what a plan is judged by.</param>
/// <param name="LongestHotInAll">The most that any one point is above it in all, breaks left out.</param>
/// <param name="StillHot">True when a point is still above it at the horizon: the times are then lower bounds.</param>
/// <param name="HottestDepth">Depth below the face, at the end, of the point that stayed hot longest.</param>
/// <param name="Peak">Highest temperature of any point. Shown, not judged: it hardly depends on thickness.</param>
/// <param name="PeakCeiling">Highest mix temperature plus rise: conduction alone cannot pass it where the heat is released at once.</param>
/// <param name="Passes">Each pass, in order.</param>
/// <param name="Readings">The readings asked for.</param>
/// <param name="EnergyError">Heat unaccounted for as a share of the heat brought in: the books of the solution.</param>
public sealed record PassHeatResult(
    Duration LongestHot,
    Duration LongestHotInAll,
    bool StillHot,
    Length HottestDepth,
    Temperature Peak,
    Temperature PeakCeiling,
    ImmutableArray<PassCooling> Passes,
    ImmutableArray<HeatReading> Readings,
    double EnergyError);

/// <summary>The same plan with a low, a likely and a high adiabatic rise.</summary>
/// <param name="Low">With the lowest credible rise.</param>
/// <param name="Likely">With the likely rise.</param>
/// <param name="High">With the highest credible rise.</param>
public sealed record PassHeatInterval(PassHeatResult Low, PassHeatResult Likely, PassHeatResult High);
