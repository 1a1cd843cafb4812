using FoamRules.Model;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Judging;

/// <summary>
/// Levels in the air as mass per volume. Shares by volume (ppm) have a meaning for vapour only; MDI is the one substance whose
/// molar mass the rule sets give, so that other substances count by mass alone.
/// </summary>
/// <param name="molarMass">The molar mass of MDI.</param>
/// <param name="temperature">The temperature at which limits in ppm are stated.</param>
/// <param name="pressure">The pressure at which they are stated.</param>
internal sealed class MdiVapour(Limit molarMass, Limit temperature, Limit pressure)
{
    /// <summary>The larger of what is given; null where nothing is given that counts.</summary>
    public MassConcentration? Larger(MassConcentration? byMass, VolumeConcentration? byVolume, Substance? substance) =>
        Both(byMass, byVolume, substance).OrderByDescending(level => level.MilligramsPerCubicMeter).Cast<MassConcentration?>().FirstOrDefault();

    /// <summary>The smaller of what is given; null where nothing is given that counts.</summary>
    public MassConcentration? Smaller(MassConcentration? byMass, VolumeConcentration? byVolume, Substance? substance) =>
        Both(byMass, byVolume, substance).OrderBy(level => level.MilligramsPerCubicMeter).Cast<MassConcentration?>().FirstOrDefault();

    /// <summary>A limit for MDI, by mass or by volume, as mass.</summary>
    public MassConcentration Of(Limit limit) => limit.Value.Quantity is VolumeConcentration share ? OfShare(share)!.Value : limit.As<MassConcentration>();

    private IEnumerable<MassConcentration> Both(MassConcentration? byMass, VolumeConcentration? byVolume, Substance? substance)
    {
        if (byMass is { } mass)
        {
            yield return mass;
        }

        if (substance == Substance.Mdi && byVolume is { } share && OfShare(share) is { } vapour)
        {
            yield return vapour;
        }
    }

    private MassConcentration? OfShare(VolumeConcentration share)
    {
        var vapour = Calculations.Respirator.VapourMass(share, molarMass.As<MolarMass>(), temperature.As<Temperature>(), pressure.As<Pressure>());
        return vapour.HasValue ? vapour.Value : null;
    }
}
