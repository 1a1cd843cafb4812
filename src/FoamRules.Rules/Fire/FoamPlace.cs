using FoamRules.Model;
using FoamRules.Rules.Facts;

namespace FoamRules.Rules.Fire;

/// <summary>Where the foam is, as the building code sees it.</summary>
internal static class FoamPlace
{
    /// <summary>The place; null where the plan does not say. A hollow steel member stays one wherever it stands inside the building.</summary>
    public static FoamLocation? Of(WorkFacts work) =>
        work.Fire.Location is not FoamLocation.Outside && IsInSteelSection(work) ? FoamLocation.SteelSection : work.Fire.Location;

    /// <summary>True for foam inside a closed steel section, by its place or by its cavity.</summary>
    public static bool IsInSteelSection(WorkFacts work) =>
        work.Fire.Location is FoamLocation.SteelSection || work is FillFacts { Fill: { Cavity: CavityKind.SteelSection } or { Cavity: null, Section: not null } };

    /// <summary>True in an attic or a crawl space.</summary>
    public static bool IsAtticOrCrawl(WorkFacts work) => Of(work) is FoamLocation.Attic or FoamLocation.CrawlSpace;
}
