using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.thickness-within-limit: no pass is thicker than the data sheet's maximum. Where the sheet is silent nothing is met:
/// closed-cell foam above one published figure is not met, roofing foam above another is a lighter tier, the rest cannot be
/// judged; open-cell foam has no figure at all. Where only a total is given, a count of equal passes is proposed. At close-out
/// the passes as built are judged.
/// </summary>
public sealed class ThicknessWithinLimit(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    private readonly Limit _closedCell = spec.Limits["silent.closed-cell"];
    private readonly Limit _roofing = spec.Limits["silent.roofing"];
    private readonly Limit _cautious = spec.Limits["silent.cautious"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer)
    {
        var passes = bearer.Passes.ToList();
        if (passes.Count == 0)
        {
            return bearer.AsBuilt ? Verdict.Missing(bearer.Spray, nameof(SprayApplication.Passes)) : OnlyTotal(bearer);
        }

        // The thickest pass decides; a pass that is not given leaves it open only while no other is too thick.
        var unknown = passes.Where(pass => pass.Thickness is null).Select(pass => Verdict.Missing(pass.Pass, pass.Property));
        var known = passes.Where(pass => pass.Thickness is not null).ToList();
        if (known.Count == 0)
        {
            return Verdict.Worst(unknown);
        }

        var thickest = known.MaxBy(pass => pass.Thickness!.Value.Meters);
        var verdict = OfPass(bearer, thickest.Thickness!.Value).On(thickest.Pass, thickest.Property, thickest.Thickness.Value);
        return Verdict.Worst([verdict, .. unknown]);
    }

    private Verdict OfPass(SprayFacts bearer, Length thickest)
    {
        var sheet = bearer.Sheet;
        if (SheetMaximum(sheet) is { } bySheet)
        {
            var maximum = Governing(Governing(bySheet, _closedCell), sheet.Kind == FoamKind.RoofingSpray ? _roofing : _closedCell);
            return Worded(Hold(thickest, maximum), bearer, thickest, maximum, "not-met");
        }

        if (sheet.Kind is null or FoamKind.OpenCellSpray)
        {
            return SheetSilent(sheet);
        }

        var verdict = Hold(thickest, _closedCell);
        if (verdict.Outcome == Outcome.NotMet)
        {
            return Worded(verdict.RestingOn(CautiousFor(sheet)), bearer, thickest, CautiousFor(sheet), "silent-thick");
        }

        if (sheet.Kind == FoamKind.RoofingSpray && Hold(thickest, _roofing) is { Outcome: Outcome.NotMet } thickForRoof)
        {
            return Worded(thickForRoof.AtTier("roofing"), bearer, thickest, _roofing, "silent-roofing");
        }

        var cautious = CautiousFor(sheet);
        return SheetSilent(sheet).Saying("silent").With("thickness", thickest).With("cautious", cautious.Value).RestingOn(cautious);
    }

    // Nothing but a total: no pass can be judged, but a count can be proposed.
    private Verdict OnlyTotal(SprayFacts bearer)
    {
        var (sheet, spray) = (bearer.Sheet, bearer.Spray);
        var passes = new FieldRef(spray, nameof(SprayApplication.Passes));
        var maximum = SheetMaximum(sheet);
        if (spray.Thickness is not { } total)
        {
            return Verdict.Missing([passes, new FieldRef(spray, nameof(SprayApplication.Thickness)), .. maximum is null ? SheetSilent(sheet).MissingFields : []]);
        }

        if (maximum is not null)
        {
            return (Proposing(Verdict.Missing(passes), total, maximum) with { Limit = maximum }).Saying("only-total");
        }

        var missing = Verdict.Missing([passes, .. SheetSilent(sheet).MissingFields]);
        return sheet.Kind is null or FoamKind.OpenCellSpray
            ? missing
            : Proposing(missing, total, CautiousFor(sheet)).Saying("only-total-silent").RestingOn(CautiousFor(sheet));
    }

    private static Verdict Worded(Verdict verdict, SprayFacts bearer, Length thickest, Limit proposedBy, string key)
    {
        if (verdict.Outcome == Outcome.NotMet && bearer.AsBuilt)
        {
            return verdict.Saying(bearer.Spray.ThickPassCored is true ? "built-and-cored" : "built");
        }

        return Proposing(verdict, PassSum.Of(bearer) ?? thickest, proposedBy).Saying(key);
    }

    private static Verdict Proposing(Verdict verdict, Length whole, Limit limit)
    {
        var count = PassSum.EqualParts(whole, limit.As<Length>());
        return verdict.With("whole", whole).With("count", count).With("each", whole / count).With("cautious", limit.Value);
    }

    private Limit CautiousFor(Product sheet) => sheet.Kind == FoamKind.RoofingSpray ? _roofing : _cautious;

    private static Limit? SheetMaximum(Product sheet) => FromSheet(sheet, nameof(Product.MaxPassThickness), sheet.MaxPassThickness, Tighter.Lower);

    private static Verdict SheetSilent(Product sheet)
    {
        var maximum = new FieldRef(sheet, nameof(Product.MaxPassThickness));
        return sheet.Kind is null ? Verdict.Missing(maximum, new FieldRef(sheet, nameof(Product.Kind))) : Verdict.Missing(maximum);
    }
}
