using FoamRules.Contracts.V1;
using FoamRules.Records.Rechecks;
using FoamRules.Testing;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>The clock of the service is set forwards or back by an hour, as after a slip of somebody or of a time server.</summary>
public sealed class ClockJumpTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [InlineData(-1)]
    [InlineData(6)]
    public async Task Readings_that_the_clock_makes_old_or_puts_into_the_future_are_no_go(int hours)
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(Plans.Morning.AddHours(hours));
        var check = await reviews.PreStart(review, Plans.Today());
        Assert.NotEqual(PreStartAnswer.Go, check.Answer);
        Assert.Contains(check.Report.Findings, finding => finding.Requirement == "site.readings-fresh" && finding.Outcome == Outcome.NotMet);
        Assert.Empty((await reviews.Verify()).Problems);
    }

    [Fact]
    public async Task A_clock_that_is_set_back_releases_nobody_earlier()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        var spray = Plans.Morning.AddHours(8);
        reviews.Clock.Set(spray.AddHours(24));
        var request = ReentryTests.Request(reviews, review, 2);
        reviews.Clock.Set(spray.AddHours(23));
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "REENTRY_NOT_YET", () => reviews.Client.ReleaseReentryAsync(request, RunningReviews.Safety).ResponseAsync);
        // Before the foam was there at all: a time that has not come is no answer.
        reviews.Clock.Set(spray.AddHours(-1));
        await RunningReviews.Refused(StatusCode.InvalidArgument, "REQUEST_UNREADABLE", () => reviews.Client.ReleaseReentryAsync(request, RunningReviews.Safety).ResponseAsync);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task A_claim_from_before_the_clock_was_set_back_holds_nobody_up(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        var clock = new StillClock();
        var opened = await store.Open(clock);
        await using (var reviews = await RunningReviews.Start(opened, clock))
        {
            await reviews.Submit(Plans.Sound());
        }

        var recheck = new Recheck(opened, Repository.Engine, clock);
        var run = await recheck.Begin(TestContext.Current.CancellationToken);
        var now = clock.GetUtcNow();
        await opened.Read(context => context.ClaimPart(run.Id, "dead", Store.Times.Microseconds(now), Store.Times.Microseconds(now.AddMinutes(2)), long.MaxValue, TestContext.Current.CancellationToken));
        clock.Set(now.AddHours(-1));
        var done = 0;
        await recheck.Work(run, "two", reviews => done += reviews, TestContext.Current.CancellationToken);
        Assert.Equal(1, done);
    }
}
