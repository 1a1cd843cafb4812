using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;

namespace FoamRules.Testing;

/// <summary>The slow and obvious way: every hazard rule on every fact, every requirement on every hazard. The rule engine must find the same.</summary>
public static class PlainLoop
{
    /// <summary>Judges a job by plain loops over the same predicates.</summary>
    public static IReadOnlyList<Assessment> Run(RuleNetwork network, JobFacts job)
    {
        var hazards = job.All.SelectMany(bearer => network.Hazards.Select(rule => rule.On(bearer))).OfType<IHazard<Bearer>>().ToList();
        return [.. from hazard in hazards
                   from requirement in network.Requirements
                   where requirement.IsAskedBy(hazard)
                   select requirement.Assess(hazard.Bearer)];
    }

    /// <summary>An assessment as a line, to compare two runs.</summary>
    public static string Line(Assessment assessment) =>
        $"{assessment.Requirement.Spec.Id} {assessment.Bearer.Subject.Kind} {assessment.Bearer.Subject.Id} {assessment.Verdict?.Outcome} {assessment.Verdict?.Says} {assessment.Verdict?.Tier} "
        + $"{string.Join(",", assessment.Verdict?.MissingFields.Select(field => field.Path) ?? [])} {assessment.Fault}";
}
