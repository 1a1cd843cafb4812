using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>The requirements of the topic <c>product</c>: the right foam for the place.</summary>
public static class ProductRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["product.below-service-temperature"] = spec => new BelowServiceTemperature(spec),
        ["product.blowing-agent-permitted"] = spec => new BlowingAgentPermitted(spec),
        ["product.density-fits-kind"] = spec => new DensityFitsKind(spec),
        ["product.drums-at-feed-temperature"] = spec => new DrumsAtFeedTemperature(spec),
        ["product.drums-stored-at-temperature"] = spec => new DrumsStoredAtTemperature(spec),
        ["product.kind-suits-work"] = spec => new KindSuitsWork(spec),
        ["product.open-cell-kept-dry"] = spec => new OpenCellKeptDry(spec),
        ["product.suits-substrate"] = spec => new SuitsSubstrate(spec),
        ["product.within-shelf-life"] = spec => new WithinShelfLife(spec),
    }.ToImmutableDictionary();
}
