using System.Collections.Immutable;
using FoamRules.Rules.Fire;
using FoamRules.Rules.Judging;
using FoamRules.Rules.Vent;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>All requirements by id, a list a topic. What is not listed is not loaded; the engine compares the ids with the rule sets at start.</summary>
public static class AllRequirements
{
    /// <summary>How to make each requirement.</summary>
    public static ImmutableSortedDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } =
        new[] { VentRequirements.Makers, FireRequirements.Makers }
            .SelectMany(makers => makers)
            .ToImmutableSortedDictionary(StringComparer.Ordinal);
}
