using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.not-sensitised: nobody is exposed whom an occupational health professional has barred from isocyanates, and each person's
/// clearance holds on the last day of the work. A plan holds no diagnosis, and none is asked for.
/// </summary>
public sealed class NotSensitised(RequirementSpec spec) : Requirement<PersonFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        var person = bearer.Person;
        if (person.BarredFromIsocyanates is true)
        {
            return Verdict.NotMet().On(person, nameof(Person.BarredFromIsocyanates));
        }

        // That a clearance has run out is body.medically-cleared's to say.
        var cleared = WorkDays.HoldsOnLast(bearer, person.ClearedUntil, nameof(Person.ClearedUntil), "run-out");
        return cleared.Outcome == Outcome.NotMet ? cleared.AtTier("run-out") : cleared;
    }
}
