using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using Google.Protobuf.WellKnownTypes;
using Said = FoamRules.Model.Said;

namespace FoamRules.Records.Reviews;

/// <summary>
/// The release of an area for re-entry: the plan as it stands on record, with what was stated, is judged as if these people came
/// back at this moment. Only where their requirement is met is the area released; a hold of it that somebody released does not count.
/// </summary>
internal static class ReentryDecision
{
    private const string Trades = ReleaseRules.TradesReentry;
    private const string Occupants = ReleaseRules.OccupantsReentry;

    /// <summary>Decides.</summary>
    /// <param name="state">What stands of the review.</param>
    /// <param name="request">Which area, for whom, and what was seen there.</param>
    /// <param name="caller">Who asks.</param>
    /// <param name="judge">Judges it.</param>
    /// <param name="now">Now, by the service's clock.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="RefusedException">It is too early, something is not known, or the caller may not.</exception>
    public static Decision Release(ReviewState state, ReleaseReentryRequest request, Caller caller, Judge judge, DateTimeOffset now, CancellationToken cancellation)
    {
        Decide.IsAsSeen(state, request.SeenVersion);
        if (state.Signed is null)
        {
            throw new RefusedException(Refused.NotNow, "NOT_SIGNED_OFF", "no revision of the plan is signed off, so nobody has said how long people must stay out; keep everybody out");
        }

        var (plan, area) = AsIfBackNow(state, request, now);
        var judged = judge.Of(plan, now, Stage.CloseOut, state.Acts[0].Act.Submitted.Judged.Units, cancellation);
        var requirement = request.Group == ReentryGroup.Trades ? Trades : Occupants;
        var named = judge.ReleaseRoles(judged, requirement);
        if (ReleaseRules.WhyNot(caller.Role, requirement, named, request.ActingAs, request.DecidedBy, request.Reference) is { } whyNot)
        {
            throw new RefusedException(Refused.NotAllowed, "ROLE_MAY_NOT_RELEASE", $"re-entry into {request.Area}: {whyNot}");
        }

        var met = Met(state, judged.Report, requirement, area, now);
        var release = new ReentryRelease
        {
            Area = request.Area,
            Group = request.Group,
            Requirement = requirement,
            LastSprayAt = request.LastSprayAt,
            NotBefore = Timestamp.FromDateTimeOffset(request.LastSprayAt.ToDateTimeOffset().AddSeconds(Math.Ceiling(met.Limit.Value.Duration.Seconds))),
            Wait = met.Limit,
            ActingAs = request.ActingAs,
            DecidedBy = request.DecidedBy,
            Reference = request.Reference,
            Remark = request.Remark,
        };
        release.AirborneLevels.AddRange(area.AirborneLevels);
        return new Decision(new Act { ReentryReleased = new ReentryReleased { Judged = judged.Judged, Release = release } }, judged.RuleSets);
    }

    // What the plan says of the wait and of cleaning was a plan; what counts is what was seen.
    private static (Plan Plan, WorkArea Area) AsIfBackNow(ReviewState state, ReleaseReentryRequest request, DateTimeOffset now)
    {
        var plan = state.Last!.Plan.Clone();
        var area = plan.Areas.FirstOrDefault(one => one.Id == request.Area)
            ?? throw Unusable("area", $"`{request.Area}`", $"an area of the plan: {string.Join(", ", plan.Areas.Select(one => one.Id))}", "name the area");
        var last = request.LastSprayAt.ToDateTimeOffset();
        if (last > now)
        {
            throw Unusable("last_spray_at", $"{last:O}", $"a time that has passed; it is {now:O}", "say when the last spraying, trimming or solvent use ended");
        }

        if (state.AsBuilt?.Plan.Areas.FirstOrDefault(one => one.Id == request.Area)?.LastSprayAt?.ToDateTimeOffset() is { } built && built > last)
        {
            throw Unusable("last_spray_at", $"{last:O}", $"no earlier than {built:O}, which is on record as built", "the clock starts at the later one");
        }

        area.LastSprayAt = request.LastSprayAt;
        // Done sooner than planned: the planned beginning is none, and nobody was asked for the real one.
        if (area.FirstSprayAt?.ToDateTimeOffset() > last)
        {
            area.FirstSprayAt = null;
        }

        var back = area.Reentry?.Clone() ?? new Reentry();
        (back.TradesAt, back.TradesAfter, back.OccupantsAt, back.OccupantsAfter) = (null, null, null, null);
        back.ClearCleaned();
        back.ClearCoversOff();
        back.ClearOdourRemains();
        if (request.Group == ReentryGroup.Trades)
        {
            back.TradesAt = Timestamp.FromDateTimeOffset(now);
        }
        else
        {
            back.OccupantsAt = Timestamp.FromDateTimeOffset(now);
        }

        if (request.HasCleaned)
        {
            back.Cleaned = request.Cleaned;
        }

        if (request.HasCoversOff)
        {
            back.CoversOff = request.CoversOff;
        }

        if (request.HasOdourRemains)
        {
            back.OdourRemains = request.OdourRemains;
        }

        area.Reentry = back;
        foreach (var level in request.AirborneLevels)
        {
            foreach (var planned in area.AirborneLevels.Where(one => one.Substance == level.Substance && one.Task == level.Task).ToList())
            {
                area.AirborneLevels.Remove(planned);
            }
        }

        area.AirborneLevels.AddRange(request.AirborneLevels);
        plan.Review = null;
        plan.JudgedAt = Timestamp.FromDateTimeOffset(now);
        return (plan, area);
    }

    private static Judgement Met(ReviewState state, Report report, string requirement, WorkArea area, DateTimeOffset now)
    {
        var judgement = report.Judgements.FirstOrDefault(one => one.Requirement == requirement && one.Subject.Kind == SubjectKind.Area && one.Subject.Id == area.Id);
        var finding = report.Findings.FirstOrDefault(one => one.Requirement == requirement && one.Subject.Equals(judgement?.Subject));
        if (judgement is null || judgement.Outcome == Outcome.NotApplicable)
        {
            throw new RefusedException(Refused.NotNow, "NOTHING_TO_RELEASE", $"{requirement} does not apply to {area.Id}: {(judgement is null ? (Said)"no foam is worked there" : Said.Name(judgement.Reason))}");
        }

        if (judgement is not { Outcome: Outcome.Met, Limit.Value.Duration: not null })
        {
            throw new RefusedException(Refused.NotNow, "REENTRY_NOT_YET", $"{area.Id} is not released; {requirement}: {(finding is null ? judgement.Reason : $"{finding.Found}. {finding.Remedy}")}");
        }

        // The fans must have run as long as was waited; the other group's time is for its own release.
        var open = report.Findings
            .Where(one => one.Subject.Equals(judgement.Subject) && one.Requirement.StartsWith("air.", StringComparison.Ordinal) && one.Requirement is not (Trades or Occupants))
            .Where(one => one.Severity == Severity.StopWork || state.Open([one], now).Any()).ToList();
        return open.Count == 0 ? judgement
            : throw new RefusedException(Refused.NotNow, "REENTRY_NOT_YET", $"{area.Id} is not released; open there: {Said.Join("; ", open.Select(one => (Said)$"{Words.Of(one)}: {one.Found}"))}");
    }

    private static RefusedException Unusable(string path, Said found, Said allowed, Said remedy) =>
        new(Refused.Unusable, "REQUEST_UNREADABLE", "the release cannot be used; nothing was put on record", [new Model.Violation(path, found, allowed, remedy)]);
}
