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

        if (person.ClearedUntil is not { } until)
        {
            return Verdict.Missing(person, nameof(Person.ClearedUntil));
        }

        if (WorkDays.Last(bearer.Job) is not { } day)
        {
            return Verdict.Missing(bearer.Job.Plan, nameof(Plan.WorkDate));
        }

        var verdict = until < day ? Verdict.NotMet("run-out").AtTier("run-out") : Verdict.Met();
        return verdict.On(person, nameof(Person.ClearedUntil), Measure.OfDate(until)).With("until", Measure.OfDate(until)).With("day", Measure.OfDate(day));
    }
}
