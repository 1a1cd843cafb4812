using FoamRules.Contracts.V1;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using Duration = FoamRules.Contracts.V1.Duration;

namespace FoamRules.Records.Tests;

/// <summary>On site, before the start: what is about to be done, now, against what was signed off.</summary>
public sealed class PreStartTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task What_was_signed_off_with_good_values_of_the_day_is_go_and_stands_on_record(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning);
        var check = await reviews.PreStart(review, Plans.Today());
        Assert.Equal([], check.Because);
        Assert.Equal((PreStartAnswer.Go, 1), (check.Answer, check.Revision));
        Assert.Empty(check.Differences);
        Assert.Equal((Stage.PreStart, Timestamp.FromDateTimeOffset(Plans.Morning)), (check.Report.Stage, check.Report.JudgedAt));
        Assert.NotEmpty(check.Report.Numbers);
        Assert.NotEmpty(check.Report.AskAgainWhen);

        var record = await reviews.Get(review);
        Assert.Equal(check.Report, record.Report);
        Assert.Equal(("Sam Safety", 0, 0), (record.Plan.Review.ReviewedBy, record.Plan.Review.OpenStops, record.Plan.Review.OpenHolds));
        Assert.Equal(check.Receipt.At, record.Summary.LastPreStartAt);
    }

    [Fact]
    public async Task Sent_twice_it_is_checked_once_and_the_answer_is_of_the_first_time()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning);
        var request = new CheckPreStartRequest { IdempotencyKey = "form-1", ReviewId = review, Today = Plans.Today() };
        var first = await reviews.Client.CheckPreStartAsync(request, RunningReviews.Crew);
        reviews.Clock.Set(Plans.Morning.AddHours(5));
        Assert.Equal(first, await reviews.Client.CheckPreStartAsync(request, RunningReviews.Crew));
        Assert.Equal(3, (await reviews.Verify()).Entries);
    }

    [Fact]
    public async Task The_time_is_the_service_s_so_old_readings_are_old_whatever_the_plan_says()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning.AddHours(6));
        var today = Plans.Today();
        today.JudgedAt = Timestamp.FromDateTimeOffset(Plans.Morning);
        var check = await reviews.PreStart(review, today);
        Assert.NotEqual(PreStartAnswer.Go, check.Answer);
        Assert.Contains(check.Report.Findings, finding => finding.Requirement == "site.readings-fresh" && finding.Severity == Severity.HoldPoint);
    }

    [Fact]
    public async Task Nothing_signed_off_is_no_go()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var submitted = await reviews.Submit(Plans.Sound());
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "NOT_SIGNED_OFF", () => reviews.PreStart(submitted.Receipt.ReviewId, Plans.Today()));
        await RunningReviews.Refused(StatusCode.NotFound, "NOT_FOUND", () => reviews.PreStart("nothing", Plans.Today()));
    }

    [Fact]
    public async Task Bad_values_of_the_day_hold_and_a_named_role_may_release_what_is_not_of_body_air_or_height()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning);
        var today = Plans.Today(humidity: 88);
        today.People.AddRange(Plans.Sound().People);
        today.People[0].ClearSealClear();
        var check = await reviews.PreStart(review, today);
        Assert.Equal(PreStartAnswer.Hold, check.Answer);
        var holds = check.Report.Findings.Where(finding => finding.Severity == Severity.HoldPoint).Select(finding => finding.Requirement).ToList();
        Assert.Equal(new PreStartReason { Kind = PreStartReasonKind.OpenHolds, Number = holds.Count, Requirements = { holds.Distinct() } }, Assert.Single(check.Reasons));
        Assert.Contains("site.humidity-below-limit on dock", check.Because[0], StringComparison.Ordinal);
        Assert.Contains("body.seal-clear on sprayer", check.Because[0], StringComparison.Ordinal);

        var humid = check.Report.Findings.First(finding => finding.Requirement == "site.humidity-below-limit");
        var release = reviews.WallRelease(check.Receipt);
        (release.Requirement, release.Subject, release.ActingAs, release.DecidedBy, release.Reference) =
            (humid.Requirement, humid.Subject, "competent person", "Chris Crew", "letter of appointment of 1 March");
        var released = await reviews.Release(release, RunningReviews.Crew);
        var seal = check.Report.Findings.First(finding => finding.Requirement == "body.seal-clear");
        var never = release.Clone();
        (never.IdempotencyKey, never.SeenVersion, never.Requirement, never.Subject) = (reviews.Key(), released.Receipt.Sequence, seal.Requirement, seal.Subject);
        never.ActingAs = seal.ReleaseRoles[0];
        await RunningReviews.Refused(StatusCode.PermissionDenied, "ROLE_MAY_NOT_RELEASE", () => reviews.Release(never, RunningReviews.Crew));
    }

    [Fact]
    public async Task A_hold_that_was_released_is_counted_as_released_on_site()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning);
        var today = Plans.Today();
        today.Gear.RatioCheck.ClearImbalanceShutOffWorks();
        var check = await reviews.PreStart(review, today);
        var hold = Assert.Single(check.Report.Findings, finding => finding.Severity == Severity.HoldPoint);
        Assert.Equal((PreStartAnswer.Hold, "gear.ratio-in-tolerance"), (check.Answer, hold.Requirement));
        var release = reviews.WallRelease(check.Receipt);
        (release.Requirement, release.Subject) = (hold.Requirement, hold.Subject);
        await reviews.Release(release, RunningReviews.Safety);
        var again = await Again(reviews, review, today, new ChangeList(), new Duration { Minutes = 5 });
        Assert.Equal([], again.Because);
        Assert.Equal(PreStartAnswer.Go, again.Answer);
        Assert.Equal(hold, Assert.Single(again.Releases).Finding);
    }

    [Fact]
    public async Task What_review_left_open_stops_on_site_until_it_is_released()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Held());
        reviews.Clock.Set(Plans.Morning);
        var check = await reviews.PreStart(review, Plans.Today());
        Assert.Equal(PreStartAnswer.Stop, check.Answer);
        Assert.Contains(check.Report.Findings, finding => finding.Requirement == "paper.stop-findings-cleared" && finding.Severity == Severity.StopWork);
        Assert.Equal(1, (await reviews.Get(review)).Plan.Review.OpenHolds);
    }

    [Fact]
    public async Task Another_plan_than_the_one_that_was_signed_off_holds_with_each_difference()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning);
        var plan = Plans.Sound();
        plan.Work.Single(work => work.Id == "office-wall").Spray.Passes[0].Thickness = new Length { Inches = 1.5 };
        plan.Areas.Single(area => area.Id == "dock").ClearContained();
        // Another order of what has ids is no difference.
        var turned = plan.Areas.Reverse().ToList();
        plan.Areas.Clear();
        plan.Areas.AddRange(turned);
        var check = await reviews.PreStart(review, Plans.Today(), plan);
        Assert.NotEqual(PreStartAnswer.Go, check.Answer);
        Assert.Equal(["areas[dock].contained: yes -> ", "work[office-wall].spray.passes[0].thickness: 1.75 in -> 1.5 in"],
            check.Differences.Select(one => $"{one.Path}: {one.Was} -> {one.Is}"));
    }

    [Fact]
    public async Task A_newer_revision_that_nobody_signed_holds()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        var other = Plans.Sound();
        other.ResponsiblePerson = "someone else";
        await reviews.Revise(review, (await reviews.Get(review)).Summary.Version, other);
        reviews.Clock.Set(Plans.Morning);
        var check = await reviews.PreStart(review, Plans.Today());
        Assert.Equal((PreStartAnswer.Hold, 1), (check.Answer, check.Revision));
        Assert.Contains("revision 2 is not signed off", Assert.Single(check.Because), StringComparison.Ordinal);
        Assert.Equal(new PreStartReason { Kind = PreStartReasonKind.NewerRevision, Number = 2 }, Assert.Single(check.Reasons));
    }

    [Fact]
    public async Task Later_checks_of_the_day_ask_what_has_happened_since_and_the_next_day_begins_anew()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning);
        await reviews.PreStart(review, Plans.Today());
        Assert.Equal(PreStartAnswer.Hold, (await reviews.PreStart(review, Plans.Today())).Answer);
        Assert.Equal(PreStartAnswer.Go, (await Again(reviews, review, Plans.Today(), new ChangeList(), new Duration { Hours = 1 })).Answer);
        var changed = await Again(reviews, review, Plans.Today(), new ChangeList { Changes = { Change.NewLot } }, new Duration { Hours = 1 });
        Assert.Contains(changed.Report.Findings, finding => finding.Requirement == "paper.stop-findings-cleared");
        Assert.NotNull((await reviews.Get(review)).Plan.Review.LastPreStartAt);
        reviews.Clock.Set(Plans.Morning.AddDays(1));
        await reviews.PreStart(review, Plans.Today());
        Assert.Null((await reviews.Get(review)).Plan.Review.LastPreStartAt);
    }

    private static async Task<CheckPreStartResponse> Again(RunningReviews reviews, string review, Plan today, ChangeList changes, Duration pause) =>
        await reviews.Client.CheckPreStartAsync(
            new CheckPreStartRequest { IdempotencyKey = reviews.Key(), ReviewId = review, Today = today, ChangesSince = changes, LongestBreak = pause }, RunningReviews.Crew);
}
