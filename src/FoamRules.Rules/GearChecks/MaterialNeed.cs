using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.GearChecks;

/// <summary>
/// The foam that pieces of work take (calculation 4.9), by in-place density and not by core density; for the requirement and for
/// today's numbers.
/// </summary>
/// <param name="fill">Values that the requirements of a fill share.</param>
/// <param name="overpack">Greatest overpack where the data sheet gives none.</param>
public sealed class MaterialNeed(FillParameters fill, Ratio overpack)
{
    /// <summary>The volume of sprayed foam, or what is missing for it.</summary>
    public static Derived<FoamVolume> VolumeOf(SprayFacts work)
    {
        var gap = Gaps.Of(
            work.Spray.Area is null ? Verdict.Missing(work.Spray, nameof(SprayApplication.Area)) : null,
            work.Spray.Thickness is null ? Verdict.Missing(work.Spray, nameof(SprayApplication.Thickness)) : null);
        return gap is null ? Derived<FoamVolume>.From(Material.VolumeOf(work.Spray.Area!.Value, work.Spray.Thickness!.Value)) : Derived<FoamVolume>.Without(gap);
    }

    /// <summary>The mass in place, or what is missing for it.</summary>
    public Derived<Mass> MassOf(WorkFacts work) => work switch
    {
        SprayFacts spray => OfSpray(spray),
        FillFacts cavities => cavities.Once(this, () => OfFill(cavities)),
        _ => throw new ArgumentOutOfRangeException(nameof(work)),
    };

    private static Derived<Mass> OfSpray(SprayFacts work)
    {
        var volume = VolumeOf(work);
        var density = work.Item.Density ?? work.Sheet.InPlaceDensity;
        return Gaps.Of(volume.Gap, density is null ? Verdict.Missing(work.Sheet, nameof(Product.InPlaceDensity)) : null) is { } gap
            ? Derived<Mass>.Without(gap)
            : Derived<Mass>.From(Material.MassOf(volume.Value.Volume, density!.Value));
    }

    // By the mass to aim at; where the steel leaves the flow factor open, by the sheet's; where it gives none, by in-place density.
    private Derived<Mass> OfFill(FillFacts work)
    {
        var numbers = FillNumbers.Of(work, fill);
        if (Gaps.Of(work.Fill.Count is null ? Verdict.Missing(work.Fill, nameof(CavityFill.Count)) : null, numbers.Spaces.Gap) is { } gap)
        {
            return Derived<Mass>.Without(gap);
        }

        var each = numbers.Spaces.Value.Select(space => MassOf(numbers, space)).ToList();
        ImmutableArray<WorkedStep> steps = [.. each.Where(mass => mass.Gap is null).SelectMany(mass => mass.Steps).Distinct()];
        return Gaps.Of(each.Select(mass => mass.Gap)) is { } open
            ? Derived<Mass>.Without(open)
            : Derived<Mass>.Of(Mass.FromKilograms(work.Fill.Count!.Value * each.Sum(mass => mass.Value.Kilograms)), steps);
    }

    private Derived<Mass> MassOf(FillNumbers numbers, FillSpace space)
    {
        var sheet = numbers.Facts.Sheet;
        var needed = numbers.NeededMass(space, sheet.MaxOverpack ?? overpack);
        if (needed.Gap is null)
        {
            return Derived<Mass>.Of(needed.Value.Aim, needed.Steps);
        }

        if (sheet.FlowFactor is { } factor && numbers.MinimumFill(space, voids => voids.Largest, factor) is { Gap: null } least)
        {
            return least;
        }

        return sheet.InPlaceDensity is { } density && numbers.Voids.Gap is null && FillMass.VoidVolume(numbers.Voids.Value.Largest, space.Length) is { HasValue: true } volume
            ? Derived<Mass>.From(Material.MassOf(volume.Value, density), volume.Steps)
            : Derived<Mass>.Without(needed.Gap);
    }
}
