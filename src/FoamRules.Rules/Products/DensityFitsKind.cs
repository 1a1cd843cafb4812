using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>
/// product.density-fits-kind: the core density lies inside the band of the foam's kind. Where a layer names a standard for
/// medium-density foam, the standard's least density stands instead of the band. Pour foam has no band: its sheet says.
/// </summary>
public sealed class DensityFitsKind(RequirementSpec spec) : Requirement<ProductFacts>(spec)
{
    private readonly (Limit Lowest, Limit Highest) _openCell = (spec.Limits["open-cell.lowest"], spec.Limits["open-cell.highest"]);
    private readonly (Limit Lowest, Limit Highest) _medium = (spec.Limits["medium.lowest"], spec.Limits["medium.highest"]);
    private readonly (Limit Lowest, Limit Highest) _roofing = (spec.Limits["roofing.lowest"], spec.Limits["roofing.highest"]);
    private readonly Limit? _standardForMedium = spec.Limits.GetValueOrDefault("medium-by-standard");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    protected override string? WhyNot(ProductFacts bearer) => bearer.Product.Kind == FoamKind.ClosedCellPour ? "pour" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(ProductFacts bearer)
    {
        var sheet = bearer.Product;
        if (sheet.Kind is not { } kind)
        {
            return Verdict.Missing(sheet, nameof(Product.Kind));
        }

        if (sheet.CoreDensity is not { } density)
        {
            return Verdict.Missing(sheet, nameof(Product.CoreDensity));
        }

        var verdict = kind == FoamKind.ClosedCellSpray && _standardForMedium is not null
            ? Hold(density, _standardForMedium).Saying("too-light")
            : Verdict.Worst([Hold(density, BandOf(kind).Lowest).Saying("too-light"), Hold(density, BandOf(kind).Highest).Saying("too-heavy")]);
        return verdict.On(sheet, nameof(Product.CoreDensity), density).With("kind", Spoken.Of(kind));
    }

    private (Limit Lowest, Limit Highest) BandOf(FoamKind kind) => kind switch
    {
        FoamKind.OpenCellSpray => _openCell,
        FoamKind.RoofingSpray => _roofing,
        _ => _medium,
    };
}
