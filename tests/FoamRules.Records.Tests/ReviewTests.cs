using FoamRules.Contracts.V1;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>Submit, revise, sign off, comment, note, list: over a real connection, on both stores.</summary>
public sealed class ReviewTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task What_was_submitted_stands_on_record_as_it_was_with_who_and_when(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var submitted = await reviews.Submit(Plans.Held());
        var receipt = submitted.Receipt;
        Assert.Equal(("Olga Office", Role.Office, Identity.Stated, ActKind.Submitted, 1), (receipt.Actor, receipt.Role, receipt.Identity, receipt.Kind, receipt.Sequence));
        Assert.Equal(reviews.Clock.GetUtcNow(), receipt.At.ToDateTimeOffset());

        var record = await reviews.Get(receipt.ReviewId);
        Assert.Equal(Plans.Held(), record.Plan);
        Assert.Equal(submitted.Report, record.Report);
        Assert.Equal(Disposition.Hold, record.Summary.Disposition);
        Assert.Equal("fill.wall-holds-pressure", Assert.Single(record.OpenHolds).Requirement);
        Assert.Equal((1, 1, 0, 0), (record.Summary.OpenHolds, record.Summary.Revision, record.Summary.SignedRevision, record.Summary.OpenStops));
        Assert.Equal(receipt, Assert.Single(record.History).Receipt);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task The_same_key_does_a_thing_once_and_another_request_under_it_is_refused(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var request = new SubmitPlanRequest { IdempotencyKey = "phone-7", Plan = Plans.Sound() };
        // Without a time of its own the plan is judged at the service's: the second answer must still be the first.
        request.Plan.JudgedAt = null;
        var first = await reviews.Client.SubmitPlanAsync(request, RunningReviews.Office);
        reviews.Clock.Set(reviews.Clock.GetUtcNow().AddHours(1));
        Assert.Equal(first, await reviews.Client.SubmitPlanAsync(request, RunningReviews.Office));

        await RunningReviews.Refused(StatusCode.AlreadyExists, "KEY_USED_FOR_ANOTHER_REQUEST", async () =>
            await reviews.Client.SubmitPlanAsync(new SubmitPlanRequest { IdempotencyKey = "phone-7", Plan = Plans.Held() }, RunningReviews.Office));
        await RunningReviews.Refused(StatusCode.AlreadyExists, "KEY_USED_FOR_ANOTHER_REQUEST", async () =>
            await reviews.Client.SubmitPlanAsync(request, RunningReviews.Safety));
        Assert.Equal(1, (await reviews.Verify()).Entries);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task A_revision_keeps_what_was_before_and_says_what_it_changes(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var first = (await reviews.Submit(Plans.Held())).Receipt;
        var revised = await reviews.Revise(first.ReviewId, first.Sequence, Plans.Sound());
        var difference = Assert.Single(revised.Differences);
        Assert.Equal("work[posts].cavity_fill.wall_holds", difference.Path);
        Assert.Equal(("4 psi", "50 psi"), (difference.Was, difference.Is));
        Assert.Equal(2, revised.Revision);

        var record = await reviews.Get(first.ReviewId);
        Assert.Equal(Plans.Sound(), record.Plan);
        Assert.Empty(record.OpenHolds);
        var before = (await reviews.Client.GetReviewAsync(new GetReviewRequest { ReviewId = first.ReviewId, Sequence = first.Sequence }, RunningReviews.Reader)).Review;
        Assert.Equal(Plans.Held(), before.Plan);
        Assert.Equal(Disposition.Hold, before.Report.Disposition);
    }

    [Fact]
    public async Task An_act_on_what_is_no_longer_so_is_aborted_and_says_what_happened()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var first = (await reviews.Submit(Plans.Held())).Receipt;
        await reviews.Revise(first.ReviewId, first.Sequence, Plans.Sound());
        var error = await RunningReviews.Refused(StatusCode.Aborted, "REVIEW_MOVED_ON", () => reviews.Revise(first.ReviewId, first.Sequence, Plans.Held()));
        Assert.Contains("Olga Office: revised (2)", error.Status.Detail, StringComparison.Ordinal);
        await RunningReviews.Refused(StatusCode.Aborted, "REVIEW_MOVED_ON", () => reviews.SignOff(first));
    }

    [Fact]
    public async Task A_stop_is_neither_released_nor_signed_away_and_a_revision_cures_it()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var submitted = await reviews.Submit(Plans.Stopped());
        var stop = submitted.Report.Findings.First(finding => finding.Severity == Severity.StopWork);
        var release = reviews.WallRelease(submitted.Receipt);
        (release.Requirement, release.Subject, release.ActingAs) = (stop.Requirement, stop.Subject, stop.ReleaseRoles.FirstOrDefault() ?? "safety officer");
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "STOP_CANNOT_BE_RELEASED", () => reviews.Release(release, RunningReviews.Safety));
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "OPEN_STOPS", () => reviews.SignOff(submitted.Receipt));

        var revised = await reviews.Revise(submitted.Receipt.ReviewId, submitted.Receipt.Sequence, Plans.Sound());
        Assert.Equal(2, (await reviews.SignOff(revised.Receipt)).Revision);
        Assert.Equal(2, (await reviews.Get(submitted.Receipt.ReviewId)).Summary.SignedRevision);
    }

    [Fact]
    public async Task A_quote_is_not_signed_off_and_a_signature_is_given_once()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var quote = Plans.Sound();
        quote.Stage = Stage.Quote;
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "NOT_JUDGED_AS_PLAN", async () => await reviews.SignOff((await reviews.Submit(quote)).Receipt));
        var signed = await reviews.SignOff((await reviews.Submit(Plans.Sound())).Receipt);
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "SIGNED_OFF_ALREADY", () => reviews.SignOff(signed.Receipt));
    }

    [Fact]
    public async Task Remarks_and_seen_cautions_stand_in_the_history()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var submitted = await reviews.Submit(Plans.Held());
        var review = submitted.Receipt.ReviewId;
        var caution = submitted.Report.Findings.First(finding => finding.Severity == Severity.Caution);
        await reviews.Client.AddCommentAsync(new AddCommentRequest { IdempotencyKey = reviews.Key(), ReviewId = review, Text = "ask the designer" }, RunningReviews.Crew);
        await reviews.Client.NoteCautionAsync(
            new NoteCautionRequest { IdempotencyKey = reviews.Key(), ReviewId = review, Requirement = caution.Requirement, Subject = caution.Subject, Remark = "told the crew" }, RunningReviews.Crew);
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "NO_CAUTION", async () => await reviews.Client.NoteCautionAsync(
            new NoteCautionRequest { IdempotencyKey = reviews.Key(), ReviewId = review, Requirement = "fill.wall-holds-pressure", Subject = new Subject { Kind = SubjectKind.Work, Id = "posts" } }, RunningReviews.Crew));
        var record = await reviews.Get(review);
        Assert.Equal([ActKind.Submitted, ActKind.Commented, ActKind.CautionNoted], record.History.Select(line => line.Receipt.Kind));
        Assert.Contains("told the crew", record.History[2].What, StringComparison.Ordinal);
        // The last report is still the one of the submission.
        Assert.Equal(submitted.Receipt.Sequence, record.ShownSequence);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Reviews_are_found_by_all_that_is_given_page_by_page(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        for (var i = 1; i <= 5; i++)
        {
            var plan = i % 2 == 0 ? Plans.Held() : Plans.Sound();
            plan.Name = $"Hall {i} of the Mill";
            plan.WorkDate = $"2026-05-0{i}";
            await reviews.Submit(plan);
        }

        var held = await reviews.Submit(Plans.Held());
        await reviews.Release(reviews.WallRelease(held.Receipt), RunningReviews.Safety);
        Assert.Equal(6, (await List(new ListReviewsRequest())).Count);
        Assert.Equal(["Hall 5 of the Mill", "Hall 4 of the Mill", "Hall 3 of the Mill", "Hall 2 of the Mill", "Hall 1 of the Mill"], await List(new ListReviewsRequest { Text = "the mill" }));
        Assert.Equal(["Hall 3 of the Mill", "Hall 2 of the Mill"], await List(new ListReviewsRequest { WorkDateFrom = "2026-05-02", WorkDateUntil = "2026-05-03" }));
        Assert.Equal(["Cold-store dock, north side", "Hall 4 of the Mill", "Hall 2 of the Mill"], await List(new ListReviewsRequest { Disposition = Disposition.Hold }));
        Assert.Equal(["Hall 4 of the Mill", "Hall 2 of the Mill"], await List(new ListReviewsRequest { OpenHolds = true }));
        Assert.Equal(["Hall 2 of the Mill"], await List(new ListReviewsRequest { OpenHolds = true, WorkDateUntil = "2026-05-03" }));
        Assert.Equal(3, (await List(new ListReviewsRequest { Requirement = "fill.wall-holds-pressure" })).Count);
        Assert.Equal(4, (await List(new ListReviewsRequest { OpenHolds = false })).Count);
        Assert.Empty(await List(new ListReviewsRequest { Text = "100%_" }));

        // A release runs out by itself: the hold is open again although nobody wrote anything.
        reviews.Clock.Set(reviews.Clock.GetUtcNow().AddDays(11));
        Assert.Equal(3, (await List(new ListReviewsRequest { OpenHolds = true })).Count);

        async Task<List<string>> List(ListReviewsRequest request)
        {
            var names = new List<string>();
            request.PageSize = 2;
            do
            {
                var page = await reviews.Client.ListReviewsAsync(request, RunningReviews.Reader);
                Assert.True(page.Reviews.Count <= 2);
                names.AddRange(page.Reviews.Select(review => review.PlanName));
                request.PageToken = page.NextPageToken;
            }
            while (request.PageToken.Length > 0);
            return names;
        }
    }

    [Fact]
    public async Task Requests_that_cannot_be_used_are_named_by_field_and_nothing_is_written()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        await RunningReviews.Refused(StatusCode.InvalidArgument, "REQUEST_UNREADABLE", async () => await reviews.Client.SubmitPlanAsync(new SubmitPlanRequest(), RunningReviews.Office));
        await RunningReviews.Refused(StatusCode.InvalidArgument, "PLAN_UNREADABLE", () => reviews.Submit(new Plan { Name = "no stage" }));
        var onSite = Plans.Sound();
        onSite.Stage = Stage.PreStart;
        await RunningReviews.Refused(StatusCode.InvalidArgument, "PLAN_UNREADABLE", () => reviews.Submit(onSite));
        await RunningReviews.Refused(StatusCode.NotFound, "NOT_FOUND", () => reviews.Get("nothing"));
        await RunningReviews.Refused(StatusCode.NotFound, "NOT_FOUND", () => reviews.Revise("nothing", 1, Plans.Sound()));
        await RunningReviews.Refused(StatusCode.InvalidArgument, "REQUEST_UNREADABLE", async () =>
            await reviews.Client.ListReviewsAsync(new ListReviewsRequest { PageToken = "x" }, RunningReviews.Reader));
        Assert.Equal(0, (await reviews.Verify()).Entries);
    }
}
