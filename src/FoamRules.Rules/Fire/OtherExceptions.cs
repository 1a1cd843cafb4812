using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>The codes' exceptions that have no requirement of their own: masonry, floors, cooler walls, one-storey walls under metal.</summary>
internal static class OtherExceptions
{
    /// <summary>Foam within masonry or concrete: enough of it on each face.</summary>
    public static Verdict Masonry(WorkFacts work, CodeLimits code)
    {
        var fire = work.Fire;
        var face = code.Find("masonry.face");
        return Verdict.Worst([
            Part.Hold(fire, nameof(FireSituation.MasonryInside), fire.MasonryInside, face, "face"),
            Part.Hold(fire, nameof(FireSituation.MasonryOutside), fire.MasonryOutside, face, "face"),
        ]);
    }

    /// <summary>Foam under a floor's walking surface: a panel on it, and no room below that sees the foam.</summary>
    public static Verdict Floor(WorkFacts work, CodeLimits code)
    {
        var fire = work.Fire;
        return Verdict.Worst([
            Part.Hold(fire, nameof(FireSituation.FloorPanel), fire.FloorPanel, code.Find("floor.panel"), "panel"),
            Part.No(fire, nameof(FireSituation.UndersideOpenToRoom), fire.UndersideOpenToRoom, "underside"),
        ]);
    }

    /// <summary>A cooler's or freezer's wall. A code without such an exception gives no limits, and then it does not fit.</summary>
    public static Verdict CoolerWall(WorkFacts work, CodeLimits code)
    {
        const string group = "cooler-wall.";
        if (code.Find(group + "thickness") is not { } thickness)
        {
            return Verdict.NotMet("not-in-code");
        }

        var fire = work.Fire;
        var tested = work.Sheet.SurfaceBurning is { } burning
            ? Part.Hold(burning, nameof(SurfaceBurning.TestedThickness), burning.TestedThickness, code.Find(group + "tested-thickness"), "tested-thickness")
            : Verdict.Missing(work.Sheet, nameof(Product.SurfaceBurning));
        return Verdict.Worst([
            FoamThickness.Of(work).Against(thickness, "thickness"),
            SurfaceBurningIndices.Against(work.Sheet, code, group),
            tested,
            Answer.Yes(fire.IgnitionTemperaturesMeetCode, fire, nameof(FireSituation.IgnitionTemperaturesMeetCode), "ignition-temperatures"),
            MetalFace.Judge(fire, code, group),
            Sprinklered(work),
        ]);
    }

    /// <summary>A one-storey exterior wall under metal. A code without such an exception gives no limits, and then it does not fit.</summary>
    public static Verdict OneStoreyWall(WorkFacts work, CodeLimits code)
    {
        const string group = "one-storey-wall.";
        if (code.Find(group + "thickness") is not { } thickness || code.Find(group + "storeys") is not { } storeys)
        {
            return Verdict.NotMet("not-in-code");
        }

        var site = work.Job.Site;
        var low = site.Storeys is { } count
            ? Requirement<WorkFacts>.Hold(count, storeys).Saying("storeys").On(site, nameof(Site.Storeys))
            : Verdict.Missing(site, nameof(Site.Storeys));
        return Verdict.Worst([
            low,
            FoamThickness.Of(work).Against(thickness, "thickness"),
            SurfaceBurningIndices.Against(work.Sheet, code, group),
            MetalFace.Judge(work.Fire, code, group),
            Sprinklered(work),
        ]);
    }

    private static Verdict Sprinklered(WorkFacts work) =>
        Answer.Yes(work.Job.Site.SprinkleredThroughout, work.Job.Site, nameof(Site.SprinkleredThroughout), "sprinklers");
}
