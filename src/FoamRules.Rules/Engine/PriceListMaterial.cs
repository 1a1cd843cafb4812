using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.GearChecks;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>Quantities of material, product by product: the same sums as today's numbers.</summary>
internal static class PriceListMaterial
{
    public static IEnumerable<KeyValuePair<string, PriceQuantityKind>> Kinds =>
    [
        PriceQuantityKind.For<ProductFacts>("foam-in-place", InPlace),
        PriceQuantityKind.For<ProductFacts>("board-feet", BoardFeet),
        PriceQuantityKind.For<ProductFacts>("material-drawn", (inputs, product) => Drawn(inputs, product, sets => PriceQuantity.Of(sets.Drawn))),
        PriceQuantityKind.For<ProductFacts>("drum-sets", (inputs, product) => Drawn(inputs, product, sets => PriceQuantity.Of(sets.WholeSets))),
        PriceQuantityKind.For<ProductFacts>("material-lost", Lost),
    ];

    private static PriceQuantity? InPlace(PriceInputs inputs, ProductFacts product)
    {
        var (mass, open, steps) = MassOf(inputs, product);
        return product.Work.Count == 0 ? null : mass is null ? PriceQuantity.Unknown(open) : PriceQuantity.Of(mass.Value).Worked(steps).WithOpen(open);
    }

    private static PriceQuantity? BoardFeet(PriceInputs inputs, ProductFacts product)
    {
        var volumes = product.Work.OfType<SprayFacts>().Select(MaterialNeed.VolumeOf).ToList();
        var known = volumes.Where(volume => volume.Gap is null).ToList();
        var open = Missing(volumes.Select(volume => volume.Gap));
        return volumes.Count == 0 ? null
            : known.Count == 0 ? PriceQuantity.Unknown(open)
            : (new PriceQuantity { Amount = Measure.OfFactor(known.Sum(volume => volume.Value.BoardFeet)) }).Worked([.. known.SelectMany(volume => volume.Steps)]).WithOpen(open);
    }

    private static PriceQuantity? Drawn(PriceInputs inputs, ProductFacts product, Func<DrumSets, PriceQuantity> amount)
    {
        var (mass, open, _) = MassOf(inputs, product);
        if (product.Work.Count == 0)
        {
            return null;
        }

        if (mass is null)
        {
            return PriceQuantity.Unknown(open);
        }

        var (waste, set) = WasteAndSet(inputs, product);
        var sets = Material.SetsFor(mass.Value, waste, set);
        return sets.HasValue
            ? amount(sets.Value).Worked(sets.Steps).With("waste", waste).With("set", set).WithOpen(open)
            : PriceQuantity.Unknown(Verdict.OutOfRange(sets.Refusal!));
    }

    private static PriceQuantity? Lost(PriceInputs inputs, ProductFacts product) =>
        MassOf(inputs, product).Mass is { } mass ? Drawn(inputs, product, sets => PriceQuantity.Of(sets.Drawn - mass)) : Drawn(inputs, product, sets => PriceQuantity.Of(sets.Drawn));

    private static (Ratio Waste, Mass Set) WasteAndSet(PriceInputs inputs, ProductFacts product)
    {
        var (gear, rules) = (product.Job.Gear, inputs.Network.Numbers);
        return (gear.Waste ?? rules.Waste, gear.SetMass ?? rules.DrumSet);
    }

    // The mass of the work of which enough is known; null where that is none of it.
    private static (Mass? Mass, ImmutableArray<FieldRef> Open, ImmutableArray<WorkedStep> Steps) MassOf(PriceInputs inputs, ProductFacts product)
    {
        var all = product.Work.Select(inputs.Network.Numbers.Material.MassOf).ToList();
        var known = all.Where(mass => mass.Gap is null).ToList();
        return (
            known.Count == 0 ? null : Mass.FromKilograms(known.Sum(mass => mass.Value.Kilograms)),
            Missing(all.Select(mass => mass.Gap)),
            [.. known.SelectMany(mass => mass.Steps)]);
    }

    private static ImmutableArray<FieldRef> Missing(IEnumerable<Verdict?> gaps) => [.. gaps.OfType<Verdict>().SelectMany(gap => gap.MissingFields).Distinct()];
}
