using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>body.health-watched: the checks of each exposed person's health are current on the last day of the work. A plan holds no result.</summary>
public sealed class HealthWatched(RequirementSpec spec) : Requirement<PersonFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer) =>
        WorkDays.HoldsOnLast(bearer, bearer.Person.HealthWatchedUntil, nameof(Person.HealthWatchedUntil), "not-met");
}
