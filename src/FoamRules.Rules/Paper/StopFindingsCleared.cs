using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Paper;

/// <summary>
/// paper.stop-findings-cleared: nothing that the review stopped or held is still open, and nothing has happened since the last
/// pre-start check that asks for a new one. Where the plan names no earlier check and nothing that happened since, this check is the first of the day.
/// </summary>
public sealed class StopFindingsCleared : Requirement<JobFacts>
{
    private const string AskAgain = "ask-again";

    private readonly Limit _none;
    private readonly Limit _break;

    /// <summary>The requirement as the rule sets state it.</summary>
    public StopFindingsCleared(RequirementSpec spec)
        : base(spec)
    {
        _none = Need("open");
        _break = Need("break");
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Unrecorded;

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        if (bearer.Plan.Review is not { } review)
        {
            return Verdict.Missing(bearer.Plan, nameof(Plan.Review));
        }

        return Verdict.Worst([Open(review.OpenStops, review, nameof(Review.OpenStops), "stops-open"), Open(review.OpenHolds, review, nameof(Review.OpenHolds), "holds-open"), .. Since(review)]);
    }

    private Verdict Open(int? count, Review review, string property, string otherwise)
    {
        if (count is not { } open)
        {
            return Verdict.Missing(review, property);
        }

        var verdict = Hold(open, _none).On(review, property, Measure.OfCount(open));
        return verdict.Outcome == Outcome.NotMet ? verdict.Saying(otherwise) : verdict;
    }

    private IEnumerable<Verdict> Since(Review review)
    {
        if (review is { LastPreStartAt: null, ChangesSince: null, LongestBreak: null })
        {
            return [];
        }

        var changes = review.ChangesSince switch
        {
            null => Verdict.Missing(review, nameof(Review.ChangesSince)),
            { Changes.IsEmpty: true } => Verdict.Met().On(review, nameof(Review.ChangesSince)),
            { } some => Verdict.NotMet("changed").AtTier(AskAgain).On(review, nameof(Review.ChangesSince))
                .With("changes", Spoken.Of<Change>(some.Changes)),
        };
        return [changes, Break(review)];
    }

    private Verdict Break(Review review)
    {
        if (review.LongestBreak is not { } pause)
        {
            return Verdict.Missing(review, nameof(Review.LongestBreak));
        }

        var verdict = Hold(pause, _break).On(review, nameof(Review.LongestBreak), pause);
        return verdict.Outcome == Outcome.NotMet ? verdict.Saying("long-break").AtTier(AskAgain) : verdict;
    }
}
