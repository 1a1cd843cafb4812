namespace FoamRules.Remedies.Proposing;

/// <summary>Who proposes for which requirement. Where none is named, a choice that the finding rests on is moved onto its limit or changed for another.</summary>
internal static class Proposers
{
    private static readonly IProposer Limit = new OntoLimit(), Word = new AnotherWord(), Answer = new OtherAnswer(), Count = new NextCount();
    private static readonly IProposer Passes = new EqualPasses(), Vents = new Vents(), Shots = new ShotSeconds(), Covering = new CoveringThatQualifies(), Respirator = new AnotherRespirator();
    private static readonly IProposer[] ForAny = [Limit, Word, Answer, Count];

    private static readonly Dictionary<string, IProposer[]> ById = new(StringComparer.Ordinal)
    {
        ["pass.thickness-within-limit"] = [Passes],
        ["pass.thickness-not-too-thin"] = [Passes, Limit],
        ["pass.daily-build-within-limit"] = [Passes],
        ["pass.sum-gives-thickness"] = [Passes],
        ["pass.heat-can-leave"] = [Passes],
        ["pass.hot-pipe-in-foam"] = [Limit, Passes],
        ["vent.air-can-leave"] = [Vents],
        ["vent.at-the-top-of-rise"] = [Vents],
        ["vent.area-keeps-pressure-low"] = [Vents],
        ["fill.shot-does-not-overfill"] = [Shots],
        ["fill.shot-fills-cavity"] = [Shots],
        ["fill.shot-ends-before-gel"] = [Shots],
        ["fill.depth-per-pour-within-limit"] = [Shots],
        ["fill.output-fits-test-shots"] = [Shots],
        ["fire.separated-from-interior"] = [Limit, Answer, Covering],
        ["body.respirator-protects-enough"] = [Respirator],
        ["body.trimming-protected"] = [Respirator],
        ["body.ears-covered"] = [new PlannedYes("hearing_protection")],
        ["site.wind-below-limit"] = [new PlannedYes("wind_screens")],
    };

    /// <summary>The proposers of a requirement, in the order in which they are asked.</summary>
    public static IReadOnlyList<IProposer> For(string requirement) => ById.GetValueOrDefault(requirement, ForAny);
}
