using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>A volume of foam in place.</summary>
/// <param name="Volume">The volume.</param>
/// <param name="BoardFeet">The same in board feet: 1 ft² of foam 1 in thick.</param>
public sealed record FoamVolume(Volume Volume, double BoardFeet);

/// <summary>Material to bring to a job.</summary>
/// <param name="Drawn">Mass drawn from the drums, waste included.</param>
/// <param name="Sets">Drum sets used, unrounded.</param>
/// <param name="WholeSets">Drum sets to bring, rounded up.</param>
public sealed record DrumSets(Mass Drawn, double Sets, long WholeSets);

/// <summary>Board feet, volume, mass and drum sets. Mass goes by in-place density (skins and pass lines included), never by core density.</summary>
public static class Material
{
    private const string BoardFootSource = "board foot: 1 ft² × 1 in (trade unit; construction reference, read)";
    private const string MassSource = "definition of density; in-place density, not core (handbook practice, read)";
    private const string DrumSource = "mass balance; waste as the share of the material drawn (common practice, no source)";

    /// <summary>
    /// Volume of foam on a surface: V = A × d, also in board feet (1 ft² × 1 in). Area more than 0, thickness more than 0.
    /// Source: board foot definition.
    /// </summary>
    public static Calculated<FoamVolume> VolumeOf(Area area, Length thickness)
    {
        if (Gate.First(Gate.Positive("area", area), Gate.Positive("thickness", thickness)) is { } refusal)
            return Calculated<FoamVolume>.Refuse(refusal);
        var volume = area * thickness;
        var boardFeet = InBoardFeet(volume);
        return Calculated<FoamVolume>.From(new FoamVolume(volume, boardFeet),
            Line.Of("foam volume", "V = A × d", volume, "definition of volume",
                Line.In("A", "area", area), Line.In("d", "thickness", thickness)),
            Line.Of("board feet", "bd ft = V ÷ (1 ft² × 1 in)", Measure.OfFactor(boardFeet), BoardFootSource,
                Line.In("V", "foam volume", volume)));
    }

    /// <summary>
    /// Mass of foam in place: m = V × ρ, with the in-place density. Volume and density more than 0. Source: definition of density.
    /// </summary>
    public static Calculated<Mass> MassOf(Volume volume, Density inPlaceDensity)
    {
        if (Gate.First(Gate.Positive("volume", volume), Gate.Positive("in-place density", inPlaceDensity)) is { } refusal)
            return Calculated<Mass>.Refuse(refusal);
        var mass = volume * inPlaceDensity;
        return Calculated<Mass>.From(mass, Line.Of("mass of foam in place", "m = V × ρ", mass, MassSource,
            Line.In("V", "foam volume", volume), Line.In("ρ", "in-place density", inPlaceDensity)));
    }

    /// <summary>
    /// Theoretical yield of a mass of material: V = m ÷ ρ, also in board feet; 1,000 lb at 2.0 lb/ft³ in place give 6,000 bd ft.
    /// Mass and density more than 0. Source: definition of density; board foot definition.
    /// </summary>
    public static Calculated<FoamVolume> TheoreticalYield(Mass material, Density inPlaceDensity)
    {
        if (Gate.First(Gate.Positive("mass of material", material), Gate.Positive("in-place density", inPlaceDensity)) is { } refusal)
            return Calculated<FoamVolume>.Refuse(refusal);
        var volume = material / inPlaceDensity;
        var boardFeet = InBoardFeet(volume);
        return Calculated<FoamVolume>.From(new FoamVolume(volume, boardFeet),
            Line.Of("theoretical yield", "V = m ÷ ρ", volume, MassSource,
                Line.In("m", "mass of material", material), Line.In("ρ", "in-place density", inPlaceDensity)),
            Line.Of("board feet", "bd ft = V ÷ (1 ft² × 1 in)", Measure.OfFactor(boardFeet), BoardFootSource,
                Line.In("V", "theoretical yield", volume)));
    }

    /// <summary>
    /// Drum sets for a mass of foam in place: m_drawn = m ÷ (1 − w), sets = m_drawn ÷ m_set, whole sets rounded up.
    /// The waste w is the share of the material drawn that does not stay in place (overspray, trimmings, purging), 0 ≤ w &lt; 100 %;
    /// masses more than 0. Source: mass balance; common practice.
    /// </summary>
    public static Calculated<DrumSets> SetsFor(Mass inPlace, Ratio waste, Mass massOfSet)
    {
        if (Gate.First(
                Gate.Positive("mass of foam in place", inPlace),
                Gate.Require(waste.DecimalFractions is >= 0 and < 1, "waste", Measure.Of(waste), "0 % or more and less than 100 %",
                    "waste is a share of the material drawn"),
                Gate.Positive("mass of a drum set", massOfSet)) is { } refusal)
            return Calculated<DrumSets>.Refuse(refusal);
        var drawn = inPlace / (1 - waste.DecimalFractions);
        var sets = drawn / massOfSet;
        // The rounding keeps the last digit of a double from asking for one more set.
        var wholeSets = (long)Math.Ceiling(Math.Round(sets, 9));
        return Calculated<DrumSets>.From(new DrumSets(drawn, sets, wholeSets),
            Line.Of("material drawn", "m_drawn = m ÷ (1 − w)", drawn, DrumSource,
                Line.In("m", "mass of foam in place", inPlace), Line.In("w", "waste", waste)),
            Line.Of("drum sets", "sets = m_drawn ÷ m_set, rounded up", Measure.OfCount(wholeSets), DrumSource,
                Line.In("m_drawn", "material drawn", drawn), Line.In("m_set", "mass of a drum set", massOfSet)));
    }

    private static double InBoardFeet(Volume volume) => volume / (Area.FromSquareFeet(1) * Length.FromInches(1));
}
