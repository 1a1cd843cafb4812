using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.trained-on-isocyanates: each person was trained before the work, and where the rule sets give an age the training is no
/// older on the last day of the work. An old training is a lighter break than none.
/// </summary>
public sealed class TrainedOnIsocyanates : Requirement<PersonFacts>
{
    private readonly Limit? _years;

    /// <summary>The requirement as the rule sets state it.</summary>
    public TrainedOnIsocyanates(RequirementSpec spec)
        : base(spec) => _years = Find("years");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        var person = bearer.Person;
        if (person.IsocyanateTraining is not { } trained)
        {
            return Verdict.Missing(person, nameof(Person.IsocyanateTraining));
        }

        if (WorkDays.Last(bearer.Job) is not { } day)
        {
            return Verdict.Missing(bearer.Job.Plan, nameof(Plan.WorkDate));
        }

        var first = bearer.Job.Plan.WorkDate ?? day;
        var verdict = trained > first ? Verdict.NotMet("too-late")
            : _years is not null && Hold(YearsBetween(trained, day), _years) is { Outcome: Outcome.NotMet } old ? old.Saying("too-old").AtTier("too-old")
            : Verdict.Met();
        return verdict.On(person, nameof(Person.IsocyanateTraining), Measure.OfDate(trained)).With("date", Measure.OfDate(trained)).With("day", Measure.OfDate(day));
    }

    // A year that has begun counts: a day more than five years is the sixth.
    private static int YearsBetween(DateOnly from, DateOnly to)
    {
        var years = to.Year - from.Year;
        return from.AddYears(years) < to ? years + 1 : years;
    }
}
