using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Records.Reviews;

/// <summary>
/// The check on site before the start: what is about to be done, with the values of the day, judged now, and held against the
/// revision that was signed off.
/// </summary>
internal static class PreStart
{
    /// <summary>Checks.</summary>
    /// <param name="state">What stands of the review.</param>
    /// <param name="request">What is about to be done.</param>
    /// <param name="judge">Judges it.</param>
    /// <param name="now">Now. What the plan says of the time does not count: an answer is for the moment in which it is given.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    public static Decision Check(ReviewState state, CheckPreStartRequest request, Judge judge, DateTimeOffset now, CancellationToken cancellation)
    {
        Decide.IsNotClosed(state);
        if (state.Signed is not { } signed)
        {
            throw new RefusedException(Refused.NotNow, "NOT_SIGNED_OFF", "no revision of the plan is signed off, so there is nothing to hold today against; do not start");
        }

        var plan = DayOverlay.Lay(request.Today ?? new Plan(), request.Plan ?? signed.Revision.Judged.Plan);
        plan.JudgedAt = Timestamp.FromDateTimeOffset(now);
        var units = state.Acts[0].Act.Submitted.Judged.Units;
        var differences = PlanDifferences.BesidesTheDay(signed.Revision.Judged.Plan, plan, signed.Revision.Judged.Report.Units);
        plan.Review = ReviewOf(state, plan, differences, now);
        plan.Review.ChangesSince = request.ChangesSince;
        plan.Review.LongestBreak = request.LongestBreak;
        var judged = judge.Of(plan, now, Stage.PreStart, units, cancellation);

        var check = new PreStartChecked { Judged = judged.Judged, Revision = signed.Revision.Number };
        check.Differences.AddRange(differences);
        check.Releases.AddRange(judged.Report.Findings.Select(finding => state.ReleaseOf(finding, now)).OfType<HoldRelease>());
        Answer(check, state, signed, judged.Report, now);
        return new Decision(new Act { PreStartChecked = check }, judged.RuleSets);
    }

    /// <summary>What the record says of the review that was made, for the plan to be judged with.</summary>
    public static Review ReviewOf(ReviewState state, Plan plan, IReadOnlyList<PlanDifference> differences, DateTimeOffset now)
    {
        var reviewed = (state.Signed?.Revision ?? state.Revisions[^1]).Judged.Report;
        return new Review
        {
            ReviewedAt = state.Signed?.Receipt.At,
            ReviewedBy = state.Signed?.Receipt.Actor ?? "",
            OpenStops = reviewed.Findings.Count(finding => finding.Severity == Severity.StopWork),
            OpenHolds = state.Open(reviewed.Findings, now).Count(),
            LastPreStartAt = state.PreStarts.Select(check => check.Receipt.At).LastOrDefault(at => Day(at.ToDateTimeOffset(), plan) == Day(now, plan)),
            Differences = new PlanDifferenceList { Differences = { differences } },
        };
    }

    private static void Answer(PreStartChecked check, ReviewState state, Signature signed, Report report, DateTimeOffset now)
    {
        var stops = report.Findings.Where(finding => finding.Severity == Severity.StopWork).ToList();
        var holds = state.Open(report.Findings, now).ToList();
        if (stops.Count > 0)
        {
            Add(PreStartReasonKind.Stops, stops.Count, $"{stops.Count} stops: {Decide.Some([.. stops.Select(Words.Of)])}", stops);
        }

        if (holds.Count > 0)
        {
            Add(PreStartReasonKind.OpenHolds, holds.Count, $"{holds.Count} open holds: {Decide.Some([.. holds.Select(Words.Of)])}", holds);
        }

        if (!report.Complete)
        {
            Add(PreStartReasonKind.Incomplete, 0, "judging failed in part, so it is not known whether all holds", []);
        }

        if (state.Revisions[^1].Number != signed.Revision.Number)
        {
            var newest = state.Revisions[^1].Number;
            Add(PreStartReasonKind.NewerRevision, newest, $"revision {newest} is not signed off; this was held against revision {signed.Revision.Number}", []);
        }

        check.Answer = stops.Count > 0 ? PreStartAnswer.Stop : check.Reasons.Count > 0 ? PreStartAnswer.Hold : PreStartAnswer.Go;

        void Add(PreStartReasonKind kind, int number, string sentence, IEnumerable<Finding> findings)
        {
            check.Reasons.Add(new PreStartReason { Kind = kind, Number = number, Requirements = { findings.Select(finding => finding.Requirement).Distinct() } });
            check.Because.Add(sentence);
        }
    }

    // The day on the site's clock; where the time zone is not known, that of UTC.
    private static DateOnly Day(DateTimeOffset at, Plan plan)
    {
        var zone = plan.TimeZone.Length > 0 && TimeZoneInfo.TryFindSystemTimeZoneById(plan.TimeZone, out var known) ? known : TimeZoneInfo.Utc;
        return DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(at, zone).DateTime);
    }
}
