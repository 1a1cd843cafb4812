using System.Collections.Immutable;
using FoamRules.Rules.Facts;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>What a quantity is worked out from, besides what it belongs to.</summary>
/// <param name="Network">The compiled rules.</param>
/// <param name="Entry">The line of the price list.</param>
/// <param name="Spec">The requirement that asks for it.</param>
internal sealed record PriceInputs(RuleNetwork Network, PriceEntry Entry, RequirementSpec Spec);

/// <summary>A quantity that a line of the price list can ask for by its name.</summary>
/// <param name="Covers">True for what it belongs to.</param>
/// <param name="Ways">The keys of <c>how</c> that the line must give.</param>
/// <param name="Of">Works it out; null where there is nothing to price.</param>
internal sealed record PriceQuantityKind(Func<Bearer, bool> Covers, ImmutableArray<string> Ways, Func<PriceInputs, Bearer, PriceQuantity?> Of)
{
    /// <summary>The quantities by name.</summary>
    public static ImmutableSortedDictionary<string, PriceQuantityKind> All { get; } =
        new[] { PriceListMaterial.Kinds, PriceListFill.Kinds, PriceListSpray.Kinds, PriceListAir.Kinds, PriceListSite.Kinds }
            .SelectMany(kinds => kinds).ToImmutableSortedDictionary(StringComparer.Ordinal);

    /// <summary>A quantity of one kind of bearer.</summary>
    /// <param name="name">Its name in the rule sets.</param>
    /// <param name="of">Works it out.</param>
    /// <param name="ways">The ways in which it is worked out; none: there is one way.</param>
    public static KeyValuePair<string, PriceQuantityKind> For<TBearer>(string name, Func<PriceInputs, TBearer, PriceQuantity?> of, params ImmutableArray<string> ways)
        where TBearer : Bearer =>
        KeyValuePair.Create(name, new PriceQuantityKind(bearer => bearer is TBearer, ways.IsEmpty ? [""] : ways, (inputs, bearer) => of(inputs, (TBearer)bearer)));
}
