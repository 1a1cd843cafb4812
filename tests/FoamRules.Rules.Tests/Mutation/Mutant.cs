using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>A requirement spoiled in one place. The cases of the requirement must see it.</summary>
/// <param name="Name">What was spoiled, such as <c>limit reach: looser</c>.</param>
/// <param name="Change">The spoiled statement of the rule sets; null where this rule book does not have the place.</param>
/// <param name="Wrap">The spoiled requirement, where it is spoiled in its judging; else as it is.</param>
internal sealed record Mutant(string Name, Func<RequirementSpec, RequirementSpec?> Change, Func<IRequirement, IRequirement> Wrap)
{
    public static Mutant OfSpec(string name, Func<RequirementSpec, RequirementSpec?> change) => new(name, change, requirement => requirement);

    public static Mutant OfJudging(string name, Func<IRequirement, IRequirement> wrap) => new(name, spec => spec, wrap);
}
