using FoamRules.Contracts.V1;
using Said = FoamRules.Model.Said;

namespace FoamRules.Records.Reviews;

/// <summary>What stands on record allows an act, or refuses it with a reason.</summary>
internal static class Decide
{
    /// <summary>There is such a review.</summary>
    public static void IsThere(ReviewState state)
    {
        if (state.Version == 0)
        {
            throw new RefusedException(Refused.NotFound, "NOT_FOUND", "there is no review of this id; ListReviews lists them");
        }
    }

    /// <summary>Nothing has happened since the caller looked.</summary>
    public static void IsAsSeen(ReviewState state, long seen)
    {
        IsThere(state);
        if (state.Version != seen)
        {
            var since = state.Acts.Where(act => act.Receipt.Sequence > seen).Select(act => (Said)$"{act.Receipt.Actor}: {(Said)Words.Of(act.Receipt.Kind)} ({act.Receipt.Sequence})");
            throw new RefusedException(Refused.LostRace, "REVIEW_MOVED_ON",
                $"the review is at version {state.Version}, not {seen}; since then: {Said.Join(", ", since)}; nothing was done; look again and repeat");
        }
    }

    /// <summary>The foam as built is not on record yet.</summary>
    public static void IsNotClosed(ReviewState state)
    {
        if (state.AsBuilt is { } built)
        {
            throw new RefusedException(Refused.NotNow, "CLOSED_OUT", $"the foam as built is on record (entry {built.Receipt.Sequence}); a change of the work is a new plan");
        }
    }

    /// <summary>The number of the newest revision, which can be signed off.</summary>
    public static int Signable(ReviewState state)
    {
        var (revision, report) = (state.Revisions[^1], state.Revisions[^1].Judged.Report);
        if (state.Signed?.Revision.Number == revision.Number)
        {
            throw new RefusedException(Refused.NotNow, "SIGNED_OFF_ALREADY", $"{state.Signed.Receipt.Actor} has signed off revision {revision.Number} already");
        }

        if (report.Stage != Stage.Plan)
        {
            throw new RefusedException(Refused.NotNow, "NOT_JUDGED_AS_PLAN", "it was judged as a quote, where less is asked; revise it at stage plan first");
        }

        if (!report.Complete)
        {
            throw new RefusedException(Refused.NotNow, "REPORT_INCOMPLETE", "judging failed in part; revise the plan so that it is judged again");
        }

        var stops = report.Findings.Where(finding => finding.Severity == Severity.StopWork).Select(Words.Of).ToList();
        return stops.Count == 0 ? revision.Number
            : throw new RefusedException(Refused.NotNow, "OPEN_STOPS", $"{stops.Count} stops are open: {Some(stops)}; a stop is cured by a revision, never signed away");
    }

    /// <summary>The release of a hold that stands open.</summary>
    public static HoldRelease Release(ReviewState state, ReleaseHoldRequest request, Caller caller, DateTimeOffset now)
    {
        var hold = Hold(state, request.Requirement, request.Subject, now);
        if (ReleaseRules.WhyNot(caller.Role, hold.Requirement, hold.ReleaseRoles, request.ActingAs, request.DecidedBy, request.Reference) is { } whyNot)
        {
            throw new RefusedException(Refused.NotAllowed, "ROLE_MAY_NOT_RELEASE", $"{Words.Of(hold)}: {whyNot}");
        }

        if (request.Until.ToDateTimeOffset() <= now)
        {
            throw new RefusedException(Refused.Unusable, "REQUEST_UNREADABLE", "the release would have run out already",
                [new Model.Violation("until", "a time that has passed", "a time to come", "say until when the release stands")]);
        }

        return new HoldRelease
        {
            Finding = hold,
            ActingAs = request.ActingAs,
            DecidedBy = request.DecidedBy,
            Reference = request.Reference,
            Why = request.Why,
            Until = request.Until,
        };
    }

    /// <summary>A caution that stands.</summary>
    public static Finding Caution(ReviewState state, string requirement, Subject subject) =>
        Standing(state, requirement, subject).FirstOrDefault(finding => finding.Severity == Severity.Caution)
            ?? throw new RefusedException(Refused.NotNow, "NO_CAUTION", $"no caution of {requirement} stands there; only cautions are noted");

    private static Finding Hold(ReviewState state, string requirement, Subject subject, DateTimeOffset now)
    {
        var standing = Standing(state, requirement, subject);
        if (standing.FirstOrDefault(finding => finding.Severity == Severity.StopWork) is { } stop)
        {
            throw new RefusedException(Refused.NotNow, "STOP_CANNOT_BE_RELEASED",
                $"{Words.Of(stop)} is a stop; it is never released or accepted, only cured by a changed fact or by a rule set with authority");
        }

        var holds = standing.Where(finding => finding.Severity == Severity.HoldPoint).ToList();
        return state.Open(holds, now).FirstOrDefault() ?? throw (holds.Count == 0
            ? new RefusedException(Refused.NotNow, "NO_HOLD", $"no hold of {requirement} stands there; only holds are released")
            : new RefusedException(Refused.NotNow, "HOLD_RELEASED_ALREADY", $"{state.ReleaseOf(holds[0], now)!.Receipt.Actor} has released {Words.Of(holds[0])} already"));
    }

    private static List<Finding> Standing(ReviewState state, string requirement, Subject subject)
    {
        var there = state.Standing().Where(finding => finding.Requirement == requirement && finding.Subject.Equals(subject)).ToList();
        return there.Count > 0 ? there
            : throw new RefusedException(Refused.NotFound, "NO_FINDING", $"no finding of {requirement} stands on this subject; GetReview shows those that stand");
    }

    /// <summary>The first of many.</summary>
    public static Said Some(IReadOnlyCollection<Said> names) => Said.Join(", ", [.. names.Take(6), .. names.Count > 6 ? [Said.Name("…")] : Array.Empty<Said>()]);
}
