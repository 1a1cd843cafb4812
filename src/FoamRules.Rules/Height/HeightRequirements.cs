using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Height;

/// <summary>The requirements of the topic <c>height</c>: how people reach the work, and how they get out of it.</summary>
public static class HeightRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["height.fall-protection"] = spec => new FallProtected(spec),
        ["height.holes-covered"] = spec => new HolesCovered(spec),
        ["height.confined-space-classified"] = spec => new ConfinedSpaceClassified(spec),
        ["height.lift-wind-limit"] = spec => new LiftWindLimit(spec),
        ["height.access-checked"] = spec => new AccessChecked(spec),
        ["height.power-lines-clear"] = spec => new PowerLinesClear(spec),
    }.ToImmutableDictionary();
}
