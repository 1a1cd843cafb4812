using FoamRules.Rules.Facts;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>Sums over the passes of a piece of work.</summary>
internal static class PassSum
{
    // Two lengths in different units may differ in the last digit: that must not ask for one pass more.
    private const double Rounding = 1e-9;

    /// <summary>The sum of all passes; null where one is not given, or none.</summary>
    public static Length? Of(SprayFacts bearer)
    {
        var thicknesses = bearer.Passes.Select(pass => pass.Thickness).ToList();
        return thicknesses.Count == 0 || thicknesses.Contains(null) ? null : Of(thicknesses.OfType<Length>());
    }

    /// <summary>A sum, in the unit of the first.</summary>
    public static Length Of(IEnumerable<Length> lengths) => lengths.Aggregate((a, b) => a + b);

    /// <summary>The least number of equal parts of which none is thicker than a limit.</summary>
    public static int EqualParts(Length whole, Length limit) => Math.Max(1, (int)Math.Ceiling((whole / limit) * (1 - Rounding)));
}
