using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Paper;

/// <summary>
/// paper.plan-unchanged-since-review: what is about to be done is what was reviewed. The record of the review lists what the plan
/// says otherwise since; an empty list is "nothing", no list is not known.
/// </summary>
public sealed class PlanUnchangedSinceReview(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    private const string NotGiven = "not given", NoName = "a field that is not named";

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Unrecorded;

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        if (bearer.Plan.Review is not { } review)
        {
            return Verdict.Missing(bearer.Plan, nameof(Plan.Review));
        }

        return review.Differences switch
        {
            null => Verdict.Missing(review, nameof(Review.Differences)),
            { Differences.IsEmpty: true } => Verdict.Met().On(review, nameof(Review.Differences)),
            { Differences: var some } => Verdict.NotMet().On(review, nameof(Review.Differences)).With("differences", Spoken.List(some.Select(Shown), ";")),
        };
    }

    private static Measure Shown(PlanDifference difference) =>
        Spoken.Of(
            "difference", $"{difference.Path ?? NoName} was {difference.Was ?? NotGiven}, is {difference.Is ?? NotGiven}",
            ("field", Spoken.NameOr(difference.Path, NoName)), ("was", Spoken.NameOr(difference.Was, NotGiven)), ("is", Spoken.NameOr(difference.Is, NotGiven)));
}
