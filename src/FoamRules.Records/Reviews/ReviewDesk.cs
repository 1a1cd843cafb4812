using System.Security.Cryptography;
using System.Text;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Records.Store;
using FoamRules.Rules.Engine;
using Google.Protobuf;

namespace FoamRules.Records.Reviews;

/// <summary>The acts on reviews: each is decided on what stands on record, and put on record, or refused with a reason.</summary>
/// <param name="store">The record.</param>
/// <param name="engine">The engine in use, asked once an act.</param>
public sealed class ReviewDesk(RecordStore store, Func<CheckEngine> engine)
{
    /// <summary>Submits a plan.</summary>
    public async Task<SubmitPlanResponse> Submit(SubmitPlanRequest request, Caller caller, CancellationToken cancellation)
    {
        var asked = Ask(request, caller, request.IdempotencyKey, Guid.CreateVersion7().ToString("N"));
        var entry = await store.Find(asked, cancellation).ConfigureAwait(false);
        if (entry is null)
        {
            var judged = new Judge(engine()).Of(request.Plan, store.Now(), null, request.Units, cancellation);
            entry = await store.Append(asked, _ => new Decision(new Act { Submitted = new Submitted { Judged = judged.Judged } }, judged.RuleSets), cancellation).ConfigureAwait(false);
        }

        return new SubmitPlanResponse { Receipt = ReviewState.ReceiptOf(entry), Report = ReportIn(entry) };
    }

    /// <summary>Puts another revision in the place of the last.</summary>
    public async Task<RevisePlanResponse> Revise(RevisePlanRequest request, Caller caller, CancellationToken cancellation)
    {
        var asked = Ask(request, caller, request.IdempotencyKey, request.ReviewId);
        var entry = await store.Find(asked, cancellation).ConfigureAwait(false);
        if (entry is null)
        {
            var units = UnitsOf(await Read(request.ReviewId, cancellation).ConfigureAwait(false));
            var judged = new Judge(engine()).Of(request.Plan, store.Now(), null, units, cancellation);
            entry = await store.Append(asked, state =>
            {
                Decide.IsAsSeen(state, request.SeenVersion);
                Decide.IsNotClosed(state);
                var last = state.Revisions[^1];
                var revised = new Revised { Judged = judged.Judged, Revision = last.Number + 1, Why = request.Why };
                revised.Differences.AddRange(PlanDifferences.Between(last.Judged.Plan, judged.Plan, judged.Report.Units));
                return new Decision(new Act { Revised = revised }, judged.RuleSets);
            }, cancellation).ConfigureAwait(false);
        }

        var act = Act.Parser.ParseFrom(entry.Act).Revised;
        return new RevisePlanResponse { Receipt = ReviewState.ReceiptOf(entry), Report = ReportIn(entry), Revision = act.Revision, Differences = { act.Differences } };
    }

    /// <summary>Signs off the newest revision.</summary>
    public async Task<SignOffResponse> SignOff(SignOffRequest request, Caller caller, CancellationToken cancellation)
    {
        var entry = await store.Append(Ask(request, caller, request.IdempotencyKey, request.ReviewId), state =>
        {
            Decide.IsAsSeen(state, request.SeenVersion);
            Decide.IsNotClosed(state);
            return Done(new Act { SignedOff = new SignedOff { Revision = Decide.Signable(state), Remark = request.Remark } });
        }, cancellation).ConfigureAwait(false);
        return new SignOffResponse { Receipt = ReviewState.ReceiptOf(entry), Revision = Act.Parser.ParseFrom(entry.Act).SignedOff.Revision };
    }

    /// <summary>Adds a remark.</summary>
    public async Task<AddCommentResponse> Comment(AddCommentRequest request, Caller caller, CancellationToken cancellation)
    {
        var entry = await store.Append(Ask(request, caller, request.IdempotencyKey, request.ReviewId), state =>
        {
            Decide.IsThere(state);
            return Done(new Act { Commented = new Commented { Text = request.Text } });
        }, cancellation).ConfigureAwait(false);
        return new AddCommentResponse { Receipt = ReviewState.ReceiptOf(entry) };
    }

    /// <summary>Releases a hold.</summary>
    public async Task<ReleaseHoldResponse> Release(ReleaseHoldRequest request, Caller caller, CancellationToken cancellation)
    {
        var entry = await store.Append(Ask(request, caller, request.IdempotencyKey, request.ReviewId), state =>
        {
            Decide.IsAsSeen(state, request.SeenVersion);
            var release = Decide.Release(state, request, caller, store.Now());
            return Done(new Act { HoldReleased = release });
        }, cancellation).ConfigureAwait(false);
        return new ReleaseHoldResponse { Receipt = ReviewState.ReceiptOf(entry) };
    }

    /// <summary>Notes a caution as seen.</summary>
    public async Task<NoteCautionResponse> Note(NoteCautionRequest request, Caller caller, CancellationToken cancellation)
    {
        var entry = await store.Append(Ask(request, caller, request.IdempotencyKey, request.ReviewId), state =>
        {
            Decide.IsThere(state);
            return Done(new Act { CautionNoted = new CautionNoted { Finding = Decide.Caution(state, request.Requirement, request.Subject), Remark = request.Remark } });
        }, cancellation).ConfigureAwait(false);
        return new NoteCautionResponse { Receipt = ReviewState.ReceiptOf(entry) };
    }

    /// <summary>Checks on site before the start.</summary>
    public async Task<CheckPreStartResponse> CheckPreStart(CheckPreStartRequest request, Caller caller, CancellationToken cancellation)
    {
        var asked = Ask(request, caller, request.IdempotencyKey, request.ReviewId);
        var entry = await store.Find(asked, cancellation).ConfigureAwait(false);
        while (entry is null)
        {
            // Judged outside the transaction, so that nobody waits for it; where the review moved on meanwhile, judged again.
            var state = await Read(request.ReviewId, cancellation).ConfigureAwait(false);
            var check = PreStart.Check(state, request, new Judge(engine()), store.Now(), cancellation);
            try
            {
                entry = await store.Append(asked, current => current.Version == state.Version ? check : throw new MovedOnException(), cancellation).ConfigureAwait(false);
            }
            catch (MovedOnException)
            {
                cancellation.ThrowIfCancellationRequested();
            }
        }

        return Answered(ReviewState.ReceiptOf(entry), Act.Parser.ParseFrom(entry.Act).PreStartChecked);
    }

    /// <summary>Tells a pre-start check as it was answered.</summary>
    public async Task<CheckPreStartResponse> PreStartOf(GetReviewRequest request, CancellationToken cancellation)
    {
        var state = await Read(request.ReviewId, cancellation).ConfigureAwait(false);
        var (receipt, act) = state.Acts.FirstOrDefault(one => one.Receipt.Sequence == request.Sequence);
        return act is { ActCase: Act.ActOneofCase.PreStartChecked } ? Answered(receipt, act.PreStartChecked)
            : throw new RefusedException(Refused.NotFound, "NOT_FOUND", $"entry {request.Sequence} is no pre-start check of this review");
    }

    /// <summary>Puts the foam as built on record.</summary>
    public async Task<CloseOutResponse> CloseOut(CloseOutRequest request, Caller caller, CancellationToken cancellation)
    {
        var asked = Ask(request, caller, request.IdempotencyKey, request.ReviewId);
        var entry = await store.Find(asked, cancellation).ConfigureAwait(false);
        if (entry is null)
        {
            var now = store.Now();
            // What was seen is what is compared with: the version is asked again before it is written.
            var seen = await Read(request.ReviewId, cancellation).ConfigureAwait(false);
            Decide.IsAsSeen(seen, request.SeenVersion);
            var plan = request.Plan.Clone();
            var planned = (seen.Signed?.Revision ?? seen.Revisions[^1]).Judged;
            var differences = PlanDifferences.Between(planned.Plan, plan, planned.Report.Units);
            plan.Review = PreStart.ReviewOf(seen, plan, differences, now);
            var judged = new Judge(engine()).Of(plan, now, Stage.CloseOut, UnitsOf(seen), cancellation);
            entry = await store.Append(asked, state =>
            {
                Decide.IsAsSeen(state, request.SeenVersion);
                return new Decision(new Act { ClosedOut = new ClosedOut { Judged = judged.Judged, Differences = { differences } } }, judged.RuleSets);
            }, cancellation).ConfigureAwait(false);
        }

        // As of then: what came after this entry is not looked at, so a repeat gives the same answer.
        var until = (await store.EntriesOf(entry.ReviewId, cancellation).ConfigureAwait(false)).TakeWhile(row => row.Sequence <= entry.Sequence).ToList();
        return new CloseOutResponse
        {
            Receipt = ReviewState.ReceiptOf(entry),
            Report = ReportIn(entry),
            Differences = { Act.Parser.ParseFrom(entry.Act).ClosedOut.Differences },
            Certificate = Certificate.Of(ReviewState.Of(until), Times.Of(entry.AtMicroseconds)),
        };
    }

    /// <summary>Releases an area for re-entry.</summary>
    public async Task<ReleaseReentryResponse> ReleaseReentry(ReleaseReentryRequest request, Caller caller, CancellationToken cancellation)
    {
        var asked = Ask(request, caller, request.IdempotencyKey, request.ReviewId);
        var entry = await store.Find(asked, cancellation).ConfigureAwait(false);
        if (entry is null)
        {
            var seen = await Read(request.ReviewId, cancellation).ConfigureAwait(false);
            var decision = ReentryDecision.Release(seen, request, caller, new Judge(engine()), store.Now(), cancellation);
            entry = await store.Append(asked, state =>
            {
                Decide.IsAsSeen(state, request.SeenVersion);
                return decision;
            }, cancellation).ConfigureAwait(false);
        }

        var release = Act.Parser.ParseFrom(entry.Act).ReentryReleased.Release;
        release.Receipt = ReviewState.ReceiptOf(entry);
        return new ReleaseReentryResponse { Receipt = release.Receipt, Release = release };
    }

    /// <summary>Tells all of a review.</summary>
    /// <param name="request">Which.</param>
    /// <param name="language">The language of what was done, a tag by BCP 47; empty: English.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    public async Task<ReviewRecord> Get(GetReviewRequest request, string language, CancellationToken cancellation)
    {
        var state = await Read(request.ReviewId, cancellation).ConfigureAwait(false);
        var shown = request.Sequence == 0 ? state.Last! : JudgedAt(state, request.Sequence)
            ?? throw new RefusedException(Refused.NotFound, "NOT_FOUND", $"entry {request.Sequence} is no act of this review that has a report");
        var now = store.Now();
        var open = state.Open(state.Standing(), now).ToList();
        var record = new ReviewRecord { Summary = Projection.Summary(state), Plan = shown.Plan, Report = shown.Report, ShownSequence = shown.Receipt.Sequence };
        record.Summary.OpenHolds = open.Count;
        record.OpenHolds.AddRange(open);
        record.Releases.AddRange(state.Releases.Where(release => release.Until.ToDateTimeOffset() > now));
        record.ReentryReleases.AddRange(state.Reentries);
        record.History.AddRange(state.Acts.Select(act => Line(act.Receipt, act.Act, ViolationWords.Of(language))));
        record.Certificate = state.AsBuilt is null ? null : Certificate.Of(state, now);
        return record;
    }

    private static CheckPreStartResponse Answered(Receipt receipt, PreStartChecked check) => new()
    {
        Receipt = receipt,
        Answer = check.Answer,
        Because = { check.Because },
        Reasons = { check.Reasons },
        Report = Report.Parser.ParseFrom(check.Judged.Report),
        Revision = check.Revision,
        Differences = { check.Differences },
        Releases = { check.Releases },
    };

    private static JudgedPlan? JudgedAt(ReviewState state, long sequence)
    {
        var (receipt, act) = state.Acts.FirstOrDefault(one => one.Receipt.Sequence == sequence);
        return act is not null && ReviewState.JudgedIn(act) is { } judged
            ? new JudgedPlan(receipt, Plan.Parser.ParseFrom(judged.Plan), Report.Parser.ParseFrom(judged.Report))
            : null;
    }

    private static ReviewLine Line(Receipt receipt, Act act, IReadOnlyDictionary<string, string> patterns)
    {
        var line = new ReviewLine { Receipt = receipt, What = Words.Of(act).In(patterns) };
        line.Differences.AddRange(act.ActCase switch
        {
            Act.ActOneofCase.Revised => act.Revised.Differences,
            Act.ActOneofCase.PreStartChecked => act.PreStartChecked.Differences,
            Act.ActOneofCase.ClosedOut => act.ClosedOut.Differences,
            _ => [],
        });
        return line;
    }

    private static Decision Done(Act act) => new(act, []);

    private async Task<ReviewState> Read(string reviewId, CancellationToken cancellation)
    {
        var state = ReviewState.Of(await store.EntriesOf(reviewId, cancellation).ConfigureAwait(false));
        Decide.IsThere(state);
        return state;
    }

    // A review keeps the units that it began with: a release is of a finding as it was worded.
    private static DisplayUnits UnitsOf(ReviewState state) => state.Acts[0].Act.Submitted.Judged.Units;

    private static Report ReportIn(EntryRow entry) => Report.Parser.ParseFrom(ReviewState.JudgedIn(Act.Parser.ParseFrom(entry.Act))!.Report);

    // The caller is part of it: a key is no way to another's answer.
    private static Asked Ask(IMessage request, Caller caller, string key, string reviewId)
    {
        var about = Encoding.UTF8.GetBytes($"{request.Descriptor.FullName}\n{caller.Role}\n{caller.Name}\n");
        return new Asked(caller, key, Convert.ToHexStringLower(SHA256.HashData([.. about, .. request.ToByteArray()])), reviewId);
    }

    private sealed class MovedOnException : Exception;
}
