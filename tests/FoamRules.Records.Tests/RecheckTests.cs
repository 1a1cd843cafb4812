using FoamRules.Model;
using FoamRules.Records.Rechecks;
using FoamRules.Rules.Catalogue;
using FoamRules.Rules.Engine;
using FoamRules.Testing;

namespace FoamRules.Records.Tests;

/// <summary>The archive is checked again with other rule sets, in parts, by as many as there are.</summary>
public sealed class RecheckTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task The_newest_plan_of_each_review_is_checked_and_what_differs_is_summed_up(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var worse = (await reviews.Submit(Plans.Held())).Receipt.ReviewId;
        await reviews.Submit(Plans.Sound());
        // What held once and holds no more does not count.
        var mended = (await reviews.Submit(Plans.Held())).Receipt;
        var revised = (await reviews.Revise(mended.ReviewId, mended.Sequence, Plans.Sound())).Receipt;
        await reviews.SignOff(revised);

        var same = await Run(store, Repository.Engine);
        Assert.Equal((3, 3, 3, 0, 0, 0, 0), Counts(same.Summary));
        Assert.Empty(same.Changed);

        var stricter = await Run(store, StricterRules.Engine());
        Assert.Equal((3, 3, 2, 1, 0, 0, 1), Counts(stricter.Summary));
        Assert.Equal(new RequirementRechecked("fill.wall-holds-pressure", 0, 1, 0, 0, 0), Assert.Single(stricter.Summary.Requirements));
        var review = Assert.Single(stricter.Changed);
        Assert.Equal((worse, Disposition.Hold, Disposition.Stop), (review.ReviewId, review.Was, review.Now));
        Assert.Equal(new RecheckedFinding("fill.wall-holds-pressure", "posts", DifferenceKind.Tightens, Severity.HoldPoint, Severity.StopWork), Assert.Single(review.Findings));

        // The log says nothing of it.
        Assert.Equal(5, await (await store.Open()).Entries(0, null, TestContext.Current.CancellationToken).CountAsync(TestContext.Current.CancellationToken));
        Assert.Empty((await reviews.Verify()).Problems);
    }

    [Fact]
    public async Task What_cannot_be_judged_any_more_is_said()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using (var reviews = await RunningReviews.Start(store))
        {
            var named = Plans.Sound();
            named.RuleSets.Add("example-company");
            await reviews.Submit(named);
        }

        var (summary, changed) = await Run(store, StricterRules.Without("example-company"));
        Assert.Equal((1, 1, 0, 0, 0, 1, 0), Counts(summary));
        Assert.Contains("example-company", Assert.Single(changed).WhyNot, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task A_run_that_was_broken_off_goes_on_and_the_part_of_a_dead_worker_goes_to_another(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await Submit(store, 5);
        var clock = new StillClock();
        var opened = await store.Open(clock);
        var run = await Begin(new Recheck(opened, Repository.Engine, clock, 1));
        // One dies with a part in hand, another after one part.
        var now = clock.GetUtcNow();
        await opened.Read(context => context.ClaimPart(run.Id, "dead", Times(now), Times(now.AddMinutes(2)), long.MaxValue, TestContext.Current.CancellationToken));
        using (var death = new CancellationTokenSource())
        {
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => new Recheck(opened, Repository.Engine, clock).Work(run, "one", _ => death.Cancel(), death.Token));
        }

        var again = new Recheck(await store.Open(clock), Repository.Engine, clock);
        Assert.Equal(run.Id, (await Begin(again)).Id);
        Assert.Equal(1, await again.Checked(run, TestContext.Current.CancellationToken));
        var done = 0;
        await again.Work(run, "two", reviews =>
        {
            done += reviews;
            if (done == 3)
            {
                clock.Set(now.AddMinutes(3));
            }
        }, TestContext.Current.CancellationToken);
        Assert.Equal(4, done);
        Assert.Equal((5, 5, 5, 0, 0, 0, 0), Counts(await again.Summary(run, TestContext.Current.CancellationToken)));
        // It is done: the next is another run; and other rule sets are another run at any time.
        var next = await Begin(again);
        Assert.NotEqual(run.Id, next.Id);
        Assert.NotEqual(next.Id, (await Begin(new Recheck(opened, StricterRules.Engine(), clock))).Id);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Two_workers_share_a_run_and_no_review_is_checked_twice(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await Submit(store, 8);
        var (total, clock) = (0, new StillClock());
        // Both begin at once, as on two machines.
        var workers = await Task.WhenAll(Enumerable.Range(0, 2).Select(async _ =>
        {
            var recheck = new Recheck(await store.Open(clock), Repository.Engine, clock, 1);
            return (Recheck: recheck, Run: await Begin(recheck));
        }));
        Assert.Equal(workers[0].Run.Id, workers[1].Run.Id);
        await Task.WhenAll(workers.Select((worker, at) => Task.Run(() =>
            worker.Recheck.Work(worker.Run, $"worker {at}", reviews => Interlocked.Add(ref total, reviews), TestContext.Current.CancellationToken))));
        Assert.Equal(8, total);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Claims_made_at_the_same_moment_are_of_different_parts(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await Submit(store, 6);
        var opened = await store.Open();
        var run = await Begin(new Recheck(opened, Repository.Engine, new StillClock(), 1));
        var claims = await Task.WhenAll(Enumerable.Range(0, 10).Select(worker =>
            Task.Run(() => opened.Read(context => context.ClaimPart(run.Id, $"worker {worker}", 1, 2, long.MaxValue, TestContext.Current.CancellationToken)))));
        var parts = claims.SelectMany(claim => claim).Select(part => part.First).ToList();
        // On PostgreSQL one that is just being claimed is passed over, so that all six are found.
        Assert.Equal(6, parts.Count);
        Assert.Equal(parts.Distinct().Count(), parts.Count);
    }

    [Fact]
    public async Task On_the_command_line_it_sums_up_and_says_by_its_code_whether_somebody_must_look()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using (var reviews = await RunningReviews.Start(store))
        {
            await reviews.Submit(Plans.Held());
        }

        var same = await ChildServer.Run("recheck", "--store", store.Place);
        Assert.True(same.Code == 0, same.Output + same.Errors);
        Assert.StartsWith("1 of 1 reviews checked with today's rule sets: 1 the same, 0 otherwise.", same.Output, StringComparison.Ordinal);
        var folder = Path.Combine(store.Folder, "rulesets");
        StricterRules.WriteTo(folder);
        var worse = await ChildServer.Run("recheck", "--store", store.Place, "--rules", folder, "--workers", "1");
        Assert.True(worse.Code == 10, worse.Output + worse.Errors);
        Assert.Contains("Disposition: 1 worse, 0 milder, 0 cannot be judged any more.", worse.Output, StringComparison.Ordinal);
        Assert.Matches("fill.wall-holds-pressure +0 +1 +0 +0 +0", worse.Output);
        var lines = (await ChildServer.Run("recheck", "--store", store.Place, "--rules", folder, "--format", "jsonl")).Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(2, lines.Length);
        Assert.Contains("\"was\":\"hold\",\"now\":\"stop\"", lines[0], StringComparison.Ordinal);
        Assert.Contains("\"worse\":1", lines[1], StringComparison.Ordinal);
    }

    private static (int, int, int, int, int, int, int) Counts(RecheckSummary summary) =>
        (summary.Reviews, summary.Checked, summary.Same, summary.Worse, summary.Milder, summary.NotJudged, summary.Requirements.Count);

    private static Task<RecheckRunRow> Begin(Recheck recheck) => recheck.Begin(TestContext.Current.CancellationToken);

    private static long Times(DateTimeOffset time) => Store.Times.Microseconds(time);

    private static async Task Submit(TestStore store, int plans)
    {
        await using var reviews = await RunningReviews.Start(store);
        for (var i = 0; i < plans; i++)
        {
            await reviews.Submit(Plans.Sound());
        }
    }

    private static async Task<(RecheckSummary Summary, List<RecheckedReview> Changed)> Run(TestStore store, CheckEngine engine)
    {
        var clock = new StillClock();
        var recheck = new Recheck(await store.Open(clock), engine, clock);
        var run = await Begin(recheck);
        await recheck.Work(run, "worker", _ => { }, TestContext.Current.CancellationToken);
        return (await recheck.Summary(run, TestContext.Current.CancellationToken), await recheck.Changed(run, TestContext.Current.CancellationToken).ToListAsync(TestContext.Current.CancellationToken));
    }
}
