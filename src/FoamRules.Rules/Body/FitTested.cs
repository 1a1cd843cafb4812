using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.fit-tested: this person was tested with this make, model and size, no longer ago than the limit on the last day of the
/// work, and the face has not changed since.
/// </summary>
public sealed class FitTested : Requirement<PersonFacts>
{
    private readonly Limit _months;

    /// <summary>The requirement as the rule sets state it.</summary>
    public FitTested(RequirementSpec spec)
        : base(spec) => _months = Need("months");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override string? WhyNot(PersonFacts bearer) => Worn.SealsNowhere(bearer) ? "no-seal" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        var person = bearer.Person;
        if (person.FitTest is not { } test)
        {
            return Verdict.Missing(person, nameof(Person.FitTest));
        }

        return Verdict.Worst(
        [
            Age(bearer, test),
            Match(person, test),
            Changed(test),
        ]);
    }

    private Verdict Age(PersonFacts bearer, FitTest test)
    {
        if (test.Date is not { } date)
        {
            return Verdict.Missing(test, nameof(FitTest.Date));
        }

        if (WorkDays.Last(bearer.Job) is not { } day)
        {
            return Verdict.Missing(bearer.Job.Plan, nameof(Plan.WorkDate));
        }

        var verdict = date > day ? Verdict.NotMet("too-late")
            : Hold(MonthsBetween(date, day), _months) is { Outcome: Outcome.NotMet } old ? old.Saying("too-old") : Verdict.Met();
        return verdict.On(test, nameof(FitTest.Date), Measure.OfDate(date)).With("date", Measure.OfDate(date)).With("day", Measure.OfDate(day));
    }

    private static Verdict Match(Person person, FitTest test)
    {
        if (test.MakeModelSize is not { } tested)
        {
            return Verdict.Missing(test, nameof(FitTest.MakeModelSize));
        }

        if (person.Respirator is not { } respirator)
        {
            return Verdict.Missing(person, nameof(Person.Respirator));
        }

        if (respirator.MakeModelSize is not { } worn)
        {
            return Verdict.Missing(respirator, nameof(Respirator.MakeModelSize));
        }

        var verdict = string.Equals(tested.Trim(), worn.Trim(), StringComparison.OrdinalIgnoreCase) ? Verdict.Met() : Verdict.NotMet("other-facepiece");
        return verdict.On(test, nameof(FitTest.MakeModelSize)).With("tested", tested).With("worn", worn);
    }

    private static Verdict Changed(FitTest test) => test.FaceChangedSince switch
    {
        true => Verdict.NotMet("face-changed").On(test, nameof(FitTest.FaceChangedSince)),
        false => Verdict.Met(),
        null => Verdict.Missing(test, nameof(FitTest.FaceChangedSince)),
    };

    // A month that has begun counts: a day more than twelve months is the thirteenth.
    private static int MonthsBetween(DateOnly from, DateOnly to)
    {
        var months = ((to.Year - from.Year) * 12) + to.Month - from.Month;
        return from.AddMonths(months) < to ? months + 1 : months;
    }
}
