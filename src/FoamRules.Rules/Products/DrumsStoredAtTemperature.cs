using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>product.drums-stored-at-temperature: every drum is stored between the data sheet's limits.</summary>
public sealed class DrumsStoredAtTemperature(RequirementSpec spec) : Requirement<ProductFacts>(spec)
{
    private readonly Limit _coldest = spec.Limits["coldest"];
    private readonly Limit _warmest = spec.Limits["warmest"];

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

        var coldest = Governing(FromSheet(sheet, nameof(Product.MinStorageTemperature), sheet.MinStorageTemperature, Tighter.Higher), _coldest);
        var warmest = Governing(FromSheet(sheet, nameof(Product.MaxStorageTemperature), sheet.MaxStorageTemperature, Tighter.Lower), _warmest);
        return Verdict.Worst(sheet.Lots.Select(lot => Stored(lot, coldest, warmest)));
    }

    private static Verdict Stored(Lot lot, Limit coldest, Limit warmest)
    {
        if (lot.StorageTemperature is not { } stored)
        {
            return Verdict.Missing(lot, nameof(Lot.StorageTemperature));
        }

        return Verdict.Worst([Hold(stored, coldest).Saying("too-cold"), Hold(stored, warmest).Saying("too-warm")])
            .On(lot, nameof(Lot.StorageTemperature), stored).With("lot", LotName.Of(lot));
    }
}
