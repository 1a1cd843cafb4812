using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>The requirements of the topic <c>fire</c>: what the foam needs around it, and what must stay away from it.</summary>
public static class FireRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["fire.surface-burning-within-limit"] = spec => new SurfaceBurningWithinLimit(spec),
        ["fire.tested-thickness-covers"] = spec => new TestedThicknessCovers(spec),
        ["fire.separated-from-interior"] = spec => new SeparatedFromInterior(spec),
        ["fire.attic-or-crawl-service-only"] = spec => new AtticOrCrawlServiceOnly(spec),
        ["fire.rim-and-sill-exception-fits"] = spec => new RimAndSillExceptionFits(spec),
        ["fire.exterior-wall-assembly-tested"] = spec => new ExteriorWallAssemblyTested(spec),
        ["fire.roof-exception-fits"] = spec => new RoofExceptionFits(spec),
        ["fire.inside-steel-section-referred"] = spec => new InsideSteelSectionReferred(spec),
        ["fire.special-approval-fits"] = spec => new SpecialApprovalFits(spec),
        ["fire.covered-in-time"] = spec => new CoveredInTime(spec),
        ["fire.hot-work-clear"] = spec => new HotWorkClear(spec),
        ["fire.clear-of-luminaires"] = spec => new ClearOfLuminaires(spec),
        ["fire.clear-of-flues"] = spec => new ClearOfFlues(spec),
        ["fire.cables-not-bundled"] = spec => new CablesNotBundled(spec),
        ["fire.no-welding-on-filled-section"] = spec => new NoWeldingOnFilledSection(spec),
        ["fire.last-heat-check"] = spec => new LastHeatCheck(spec),
        ["fire.plenum-suits"] = spec => new PlenumSuits(spec),
        ["fire.steel-protection-restored"] = spec => new SteelProtectionRestored(spec),
        ["fire.waste-cools-outside"] = spec => new WasteCoolsOutside(spec),
        ["fire.escape-kept"] = spec => new EscapeKept(spec),
    }.ToImmutableDictionary();
}
