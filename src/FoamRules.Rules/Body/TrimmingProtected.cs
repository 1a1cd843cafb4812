using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.trimming-protected: whoever trims in the first hour after the last spraying in that air wears a respirator against
/// isocyanate, later still one against dust, and long sleeves. Goggles are judged by body.eyes-covered; others come back by
/// air.trades-reentry-long-enough.
/// </summary>
public sealed class TrimmingProtected : Requirement<PersonFacts>
{
    private readonly Limit _firstHour;

    /// <summary>The requirement as the rule sets state it.</summary>
    public TrimmingProtected(RequirementSpec spec)
        : base(spec) => _firstHour = Need("first-hour");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override string? WhyNot(PersonFacts bearer) => bearer.MayDo(CrewTask.Trim) ? null : "no-trimming";

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer) => Verdict.Worst([Respirator(bearer.Person), Sleeves(bearer.Person)]);

    private Verdict Respirator(Person person)
    {
        if (person.Respirator is not { } respirator)
        {
            return Verdict.Missing(person, nameof(Person.Respirator));
        }

        if (respirator.Type is null)
        {
            return Verdict.Missing(respirator, nameof(Model.Respirator.Type));
        }

        if (respirator.Type == RespiratorType.None)
        {
            return Verdict.NotMet("no-respirator").On(respirator, nameof(Model.Respirator.Type));
        }

        // A respirator for the first hour does later too.
        var early = respirator.Facepiece is { } facepiece
            ? Answer.OneOf(Answer.Word(facepiece), _firstHour, "dust-only").On(respirator, nameof(Model.Respirator.Facepiece))
            : Verdict.Missing(respirator, nameof(Model.Respirator.Facepiece));
        return (early.Outcome, person.WorksWithinFirstHour) switch
        {
            (Outcome.Met, _) or (_, true) => early,
            (_, false) => Verdict.Met().On(person, nameof(Person.WorksWithinFirstHour)),
            _ => Verdict.Missing(person, nameof(Person.WorksWithinFirstHour)),
        };
    }

    private static Verdict Sleeves(Person person) => person.Clothing switch
    {
        null => Verdict.Missing(person, nameof(Person.Clothing)),
        { FullSuit: true } clothing => Verdict.Met().On(clothing, nameof(Clothing.FullSuit)),
        var clothing => Answer.Yes(clothing.LongSleeves, clothing, nameof(Clothing.LongSleeves), "bare-arms"),
    };
}
