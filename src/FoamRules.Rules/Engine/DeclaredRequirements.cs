using System.Collections.Immutable;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using FoamRules.RuleSets.Declared;

namespace FoamRules.Rules.Engine;

/// <summary>Makes the requirements that rule sets declare.</summary>
internal static class DeclaredRequirements
{
    /// <summary>Makes one.</summary>
    /// <param name="spec">The requirement as the rule sets state it.</param>
    /// <param name="hazards">The hazard rules of the network.</param>
    /// <exception cref="RuleSetMismatchException">No hazard of that kind falls on what it is judged on: nobody would ever ask it.</exception>
    public static IRequirement Make(RequirementSpec spec, ImmutableArray<IHazardRule> hazards)
    {
        var rule = spec.Declared!;
        var bearer = BearerOf(rule.Bearer);
        var falling = hazards.Where(hazard => hazard.BearerType.IsAssignableFrom(bearer) || bearer.IsAssignableFrom(hazard.BearerType)).Select(hazard => hazard.Kind).Distinct().ToList();
        var kind = falling.Cast<HazardKind?>().FirstOrDefault(kind => HazardTexts.IdOf(kind!.Value) == rule.Hazard) ?? throw new RuleSetMismatchException(
            spec.Id,
            $"{rule.Place with { Found = $"the hazard {rule.Hazard}, which falls on no {rule.Bearer}".ToLowerInvariant(), Allowed = string.Join(", ", falling.Select(HazardTexts.IdOf)), Remedy = "use one of these" }}");
        return rule.Bearer switch
        {
            DeclaredBearer.Area => new DeclaredRequirement<AreaFacts>(spec, kind),
            DeclaredBearer.Product => new DeclaredRequirement<ProductFacts>(spec, kind),
            DeclaredBearer.Person => new DeclaredRequirement<PersonFacts>(spec, kind),
            DeclaredBearer.Work => new DeclaredRequirement<WorkFacts>(spec, kind),
            DeclaredBearer.Spray => new DeclaredRequirement<SprayFacts>(spec, kind),
            DeclaredBearer.Fill => new DeclaredRequirement<FillFacts>(spec, kind),
            _ => new DeclaredRequirement<JobFacts>(spec, kind),
        };
    }

    private static Type BearerOf(DeclaredBearer bearer) => bearer switch
    {
        DeclaredBearer.Area => typeof(AreaFacts),
        DeclaredBearer.Product => typeof(ProductFacts),
        DeclaredBearer.Person => typeof(PersonFacts),
        DeclaredBearer.Work => typeof(WorkFacts),
        DeclaredBearer.Spray => typeof(SprayFacts),
        DeclaredBearer.Fill => typeof(FillFacts),
        _ => typeof(JobFacts),
    };
}
