using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>
/// product.kind-suits-work: the data sheet lists this use. Where the sheet lists no use at all, closed cavities get pour foam
/// and open faces get spray foam.
/// </summary>
public sealed class KindSuitsWork(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        if (bearer.Sheet.ListedUses.IsEmpty)
        {
            return ByKind(bearer);
        }

        return bearer is FillFacts ? Listed(bearer, FoamUse.ClosedCavity) : Verdict.Worst([OpenFace(bearer), BelowGrade(bearer)]);
    }

    private static Verdict OpenFace(WorkFacts bearer) => bearer.Area.Area.Enclosure switch
    {
        Enclosure.Interior => Listed(bearer, FoamUse.OpenFaceInterior),
        Enclosure.Exterior => Listed(bearer, FoamUse.OpenFaceExterior),
        Enclosure.Roof => Listed(bearer, FoamUse.Roof),
        _ => Verdict.Missing(bearer.Area.Area, nameof(WorkArea.Enclosure)),
    };

    // Work below grade needs that use too, whatever else the face is.
    private static Verdict BelowGrade(WorkFacts bearer)
    {
        if (bearer.Item.BelowGrade is false || bearer.Area.Area.Enclosure == Enclosure.Roof || bearer.Sheet.ListedUses.Contains(FoamUse.BelowGrade))
        {
            return Verdict.Met();
        }

        return bearer.Item.BelowGrade is true ? Listed(bearer, FoamUse.BelowGrade) : Verdict.Missing(bearer.Item, nameof(WorkItem.BelowGrade));
    }

    private static Verdict Listed(WorkFacts bearer, FoamUse use)
    {
        var listed = SheetLimit.Of(bearer.Sheet, nameof(Product.ListedUses), Spoken.Of<FoamUse>(bearer.Sheet.ListedUses), Tighter.Fewer);
        var verdict = bearer.Sheet.ListedUses.Contains(use) ? Verdict.Met() : Verdict.NotMet();
        return (verdict with { Value = Spoken.Of(use), Limit = listed }).On(bearer.Sheet, nameof(Product.ListedUses));
    }

    private static Verdict ByKind(WorkFacts bearer)
    {
        if (bearer.Sheet.Kind is not { } kind)
        {
            return Verdict.Missing(bearer.Sheet, nameof(Product.Kind));
        }

        var suits = (kind == FoamKind.ClosedCellPour) == bearer is FillFacts;
        return (suits ? Verdict.Met() : Verdict.NotMet(bearer is FillFacts ? "spray-in-cavity" : "pour-on-face"))
            .On(bearer.Sheet, nameof(Product.Kind)).With("kind", Spoken.Of(kind));
    }
}
