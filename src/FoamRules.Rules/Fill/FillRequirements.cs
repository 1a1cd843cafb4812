using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fill;

/// <summary>The requirements of the topic <c>fill</c>: poured foam in closed cavities.</summary>
public static class FillRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["fill.compartments-mapped"] = spec => new CompartmentsMapped(spec),
        ["fill.depth-per-pour-within-limit"] = spec => new DepthPerPourWithinLimit(spec),
        ["fill.drainage-kept"] = spec => new DrainageKept(spec),
        ["fill.fullness-proven"] = spec => new FullnessProven(spec),
        ["fill.heat-can-leave"] = spec => new HeatCanLeave(spec),
        ["fill.output-fits-test-shots"] = spec => new OutputFitsTestShots(spec),
        ["fill.rotation-planned"] = spec => new RotationPlanned(spec),
        ["fill.shot-does-not-overfill"] = spec => new ShotDoesNotOverfill(spec),
        ["fill.shot-ends-before-gel"] = spec => new ShotEndsBeforeGel(spec),
        ["fill.shot-fills-cavity"] = spec => new ShotFillsCavity(spec),
        ["fill.test-shots-made"] = spec => new TestShotsMade(spec),
        ["fill.trimmed-after-set"] = spec => new TrimmedAfterSet(spec),
        ["fill.wait-covers-full-rise"] = spec => new WaitCoversFullRise(spec),
        ["fill.wall-holds-pressure"] = spec => new WallHoldsPressure(spec),
    }.ToImmutableDictionary();
}
