using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>product.drums-at-feed-temperature: the liquid in every drum lies inside the data sheet's processing range. There is no default.</summary>
public sealed class DrumsAtFeedTemperature(RequirementSpec spec) : Requirement<ProductFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(ProductFacts bearer)
    {
        var sheet = bearer.Product;
        if (sheet.Lots.IsEmpty)
        {
            return Verdict.Missing(sheet, nameof(Product.Lots));
        }

        return Verdict.Worst(sheet.Lots.SelectMany(lot => Drawn(sheet, lot)));
    }

    private static IEnumerable<Verdict> Drawn(Product sheet, Lot lot)
    {
        if (lot.LiquidTemperature is not { } liquid)
        {
            yield return Verdict.Missing(lot, nameof(Lot.LiquidTemperature));
            yield break;
        }

        var coldest = FromSheet(sheet, nameof(Product.MinFeedTemperature), sheet.MinFeedTemperature, Tighter.Higher);
        var warmest = FromSheet(sheet, nameof(Product.MaxFeedTemperature), sheet.MaxFeedTemperature, Tighter.Lower);
        yield return (coldest is null ? Verdict.Missing(sheet, nameof(Product.MinFeedTemperature)) : Hold(liquid, coldest).Saying("too-cold"))
            .On(lot, nameof(Lot.LiquidTemperature), liquid).With("lot", LotName.Of(lot));
        yield return (warmest is null ? Verdict.Missing(sheet, nameof(Product.MaxFeedTemperature)) : Hold(liquid, warmest).Saying("too-warm"))
            .On(lot, nameof(Lot.LiquidTemperature), liquid).With("lot", LotName.Of(lot));
    }
}
