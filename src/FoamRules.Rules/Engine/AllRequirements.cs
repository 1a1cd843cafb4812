using System.Collections.Immutable;
using FoamRules.Rules.Air;
using FoamRules.Rules.Body;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Fire;
using FoamRules.Rules.GearChecks;
using FoamRules.Rules.Height;
using FoamRules.Rules.Judging;
using FoamRules.Rules.OnSite;
using FoamRules.Rules.Paper;
using FoamRules.Rules.Passes;
using FoamRules.Rules.Products;
using FoamRules.Rules.Thermal;
using FoamRules.Rules.Vent;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>All requirements by id, a list a topic. What is not listed is not loaded; the engine compares the ids with the rule sets at start.</summary>
public static class AllRequirements
{
    /// <summary>How to make each requirement.</summary>
    public static ImmutableSortedDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } =
        new[]
        {
            AirRequirements.Makers,
            BodyRequirements.Makers,
            FillRequirements.Makers,
            FireRequirements.Makers,
            GearRequirements.Makers,
            HeatRequirements.Makers,
            HeightRequirements.Makers,
            PaperRequirements.Makers,
            PassRequirements.Makers,
            ProductRequirements.Makers,
            SiteRequirements.Makers,
            VentRequirements.Makers,
        }
            .SelectMany(makers => makers)
            .ToImmutableSortedDictionary(StringComparer.Ordinal);
}
