using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.tested-thickness-covers: the foam, planned and then as built, is no thicker than its fire reports cover; beyond the
/// thickness that the code names it was tested at that thickness at least, and a report approves it as thick as it is.
/// </summary>
public sealed class TestedThicknessCovers(RequirementSpec spec) : CodeRequirement(spec)
{
    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    private protected override Verdict? BeforeCode(WorkFacts bearer)
    {
        // Foam thicker than its reports is a fault under any code; only the exception for cold stores needs the code's text.
        var covered = ByReports(bearer, FoamThickness.Of(bearer));
        return covered.Outcome == Outcome.Met || (covered.Outcome == Outcome.NotMet && IsColdStore(bearer)) ? null : covered;
    }

    /// <inheritdoc/>
    private protected override Verdict Judge(WorkFacts bearer, CodeLimits code)
    {
        var thickness = FoamThickness.Of(bearer);
        var covered = ByReports(bearer, thickness);
        var verdict = covered.Outcome == Outcome.Met ? ByCode(bearer, code, thickness, covered) : covered;
        return verdict.Outcome == Outcome.Met ? verdict : AsColdStore(bearer, code, thickness) ?? verdict;
    }

    private static Verdict ByReports(WorkFacts bearer, FoamThickness thickness)
    {
        if (thickness.Unknown is { } unknown)
        {
            return unknown;
        }

        if (ReportedThickness.Greatest(bearer) is not { } greatest)
        {
            return Verdict.Missing(new FieldRef(bearer.Sheet, nameof(Product.SurfaceBurning)), new FieldRef(bearer.Sheet, nameof(Product.FireTests)));
        }

        var covered = thickness.Against(greatest, "not-met");
        return covered.Outcome == Outcome.Met ? covered : Unstated(bearer) ?? covered;
    }

    private static Verdict ByCode(WorkFacts bearer, CodeLimits code, FoamThickness thickness, Verdict covered)
    {
        if (code.Find("thick") is not { } thick)
        {
            return Part.NoTable();
        }

        return thickness.Against(thick, "thick").Outcome == Outcome.Met ? covered.RestingOn(thick) : BeyondThick(bearer, code, thickness, thick);
    }

    private static Verdict BeyondThick(WorkFacts bearer, CodeLimits code, FoamThickness thickness, Limit thick)
    {
        var sheet = bearer.Sheet;
        var tested = sheet.SurfaceBurning is { } burning
            ? Part.Hold(burning, nameof(SurfaceBurning.TestedThickness), burning.TestedThickness, code.Find("tested-thickness"), "tested-too-thin")
            : Verdict.Missing(sheet, nameof(Product.SurfaceBurning));
        return Verdict.Worst([tested.With("thickness", thickness.Value!.Value), Approved(bearer, thickness, thick)]);
    }

    private static Verdict Approved(WorkFacts bearer, FoamThickness thickness, Limit thick)
    {
        if (bearer.Sheet.FireTests.IsEmpty)
        {
            return Verdict.Missing(bearer.Sheet, nameof(Product.FireTests));
        }

        var approved = ReportedThickness.Reports(bearer).Any(test => test.MaxThickness is { } most && Quantities.Compare(thickness.Value!.Value, most) <= 0);
        return approved ? Verdict.Met() : Unstated(bearer) ?? thickness.Against(thick, "not-approved");
    }

    // A report whose thickness nobody gave may cover it.
    private static Verdict? Unstated(WorkFacts bearer) =>
        ReportedThickness.Reports(bearer).FirstOrDefault(test => test.MaxThickness is null) is { } report ? Verdict.Missing(report, nameof(FireTest.MaxThickness)) : null;

    // Null where the code has no such exception, or this is no cold store or food plant, or the exception does not reach.
    private static Verdict? AsColdStore(WorkFacts bearer, CodeLimits code, FoamThickness thickness)
    {
        var site = bearer.Job.Site;
        if (code.Find("cold-storage.thickness") is not { } limit
            || !IsColdStore(bearer)
            || bearer.Sheet.SurfaceBurning is not { TestedThickness: { } tested }
            || Part.Hold(tested, code.Find("cold-storage.tested-thickness"), "not-met").Outcome != Outcome.Met)
        {
            return null;
        }

        var within = thickness.Against(limit, "not-met");
        return within.Outcome != Outcome.Met ? null : site.SprinkleredThroughout switch
        {
            true => within.On(site, nameof(Site.SprinkleredThroughout)),
            false => null,
            null => Verdict.Missing(site, nameof(Site.SprinkleredThroughout)),
        };
    }

    private static bool IsColdStore(WorkFacts bearer) =>
        bearer.Job.Site.Use is BuildingUse.ColdStore or BuildingUse.FoodPlant || FoamPlace.Of(bearer) is FoamLocation.CoolerWall;
}
