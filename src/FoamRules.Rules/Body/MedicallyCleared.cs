using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.medically-cleared: each person was cleared before the fit test and before they first used the respirator, and the clearance
/// holds on the last day of the work. Whoever wears no respirator needs the clearance all the same.
/// </summary>
public sealed class MedicallyCleared(RequirementSpec spec) : Requirement<PersonFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        var person = bearer.Person;
        var clearance = WorkDays.HoldsOnLast(bearer, person.ClearedUntil, nameof(Person.ClearedUntil), "run-out");
        return person.Respirator is { Type: RespiratorType.None }
            ? clearance
            : Verdict.Worst([clearance, Verdict.Confirmed(person.ClearedBeforeUse, person, nameof(Person.ClearedBeforeUse), "too-late")]);
    }
}
