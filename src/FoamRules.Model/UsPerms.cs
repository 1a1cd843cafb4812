using UnitsNet;

namespace FoamRules.Model;

/// <summary>Permeance to vapour in US perms: grains per hour, square foot and inch of mercury. UnitsNet has no such quantity.</summary>
public static class UsPerms
{
    /// <summary>A permeance in US perms; null where the message names no value.</summary>
    public static double? Of(VapourPermeance? permeance) => permeance switch
    {
        { UsPerms: { } perms } => perms,
        { NanogramsPerPascalSecondSquareMeter: { } nanograms } => nanograms / NanogramsOfOne,
        _ => null,
    };

    /// <summary>A permeance in nanograms per pascal, second and square meter.</summary>
    public static double InNanograms(double usPerms) => usPerms * NanogramsOfOne;

    /// <summary>Permeances given in nanograms per pascal, second and square meter, in US perms.</summary>
    public static double FromNanograms(double nanograms) => nanograms / NanogramsOfOne;

    private static double NanogramsOfOne =>
        Mass.FromGrains(1).Nanograms / (Duration.FromHours(1).Seconds * Area.FromSquareFeet(1).SquareMeters * Pressure.FromInchesOfMercury(1).Pascals);
}
