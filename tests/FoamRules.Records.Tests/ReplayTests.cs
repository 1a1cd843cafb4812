using System.Reflection;
using FoamRules.Contracts.V1;
using FoamRules.Rules.Engine;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>Stored reports are made again from what was stored, whatever today's rule sets are.</summary>
public sealed class ReplayTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Every_report_comes_out_byte_for_byte(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var review = await EveryKindOfReport(reviews);
        var replays = await Replay(reviews, review);
        Assert.Equal([ActKind.Submitted, ActKind.Revised, ActKind.PreStartChecked, ActKind.ClosedOut], replays.Select(replay => replay.Receipt.Kind));
        Assert.All(replays, replay => Assert.Equal((true, "", 0, 0), (replay.Same, replay.WhyNot, replay.RuleSetsChanged.Count, replay.Today.Count)));
        await reviews.Submit(Plans.Stopped());
        Assert.Equal(5, (await Replay(reviews, "")).Count);
    }

    [Fact]
    public async Task Under_other_rule_sets_the_old_report_still_comes_out_and_what_they_would_say_is_listed()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        string review;
        await using (var reviews = await RunningReviews.Start(store))
        {
            review = await EveryKindOfReport(reviews);
        }

        await using var later = await RunningReviews.Start(store, StricterRules.Engine());
        var replays = await Replay(later, review);
        Assert.All(replays, replay => Assert.Equal((true, ""), (replay.Same, replay.WhyNot)));
        var submitted = replays[0];
        Assert.StartsWith("general-practice is another: ", Assert.Single(submitted.RuleSetsChanged), StringComparison.Ordinal);
        var change = Assert.Single(submitted.Today);
        Assert.Equal(("fill.wall-holds-pressure", Severity.HoldPoint, Severity.StopWork), (change.Requirement, change.Before.Severity, change.After.Severity));
        Assert.Equal((Disposition.Hold, Disposition.Stop), (submitted.Disposition, submitted.DispositionToday));
        // And a job that goes on is judged by the rule sets of the day, while the older entries stay as they are.
        var again = await later.Submit(Plans.Held());
        Assert.Equal(Disposition.Stop, again.Report.Disposition);
        Assert.True(Assert.Single(await Replay(later, again.Receipt.ReviewId)).Same);
    }

    [Fact]
    public async Task A_report_that_was_not_the_engine_s_does_not_come_out_and_a_lost_rule_set_is_named()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = (await reviews.Submit(Plans.Held())).Receipt.ReviewId;
        Act act;
        await using (var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={store.Place};Pooling=False"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            var read = connection.CreateCommand();
            read.CommandText = "SELECT act FROM entries WHERE sequence = 1";
            act = Act.Parser.ParseFrom((byte[])(await read.ExecuteScalarAsync(TestContext.Current.CancellationToken))!);
        }

        var report = Report.Parser.ParseFrom(act.Submitted.Judged.Report);
        report.Disposition = Disposition.Proceed;
        act.Submitted.Judged.Report = Google.Protobuf.MessageExtensions.ToByteString(report);
        await store.Tamper($"UPDATE entries SET act = x'{Convert.ToHexString(Google.Protobuf.MessageExtensions.ToByteArray(act))}'");
        var forged = Assert.Single(await Replay(reviews, review));
        Assert.Equal((false, $"the report comes out otherwise than it is stored, by the same engine {report.EngineVersion}"), (forged.Same, forged.WhyNot));

        await store.Tamper("DELETE FROM rule_sets WHERE id <> 'general-practice'");
        var lost = Assert.Single(await Replay(reviews, review));
        Assert.False(lost.Same);
        Assert.Contains("is not among those that are kept", lost.WhyNot, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_report_names_the_build_that_made_it_and_a_difference_names_both_engines()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var built = typeof(CheckEngine).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion;
        Assert.Equal(built, (await reviews.Submit(Plans.Held())).Report.EngineVersion);
        // As another build would have stored it: first with the same findings, then with others.
        await MadeBy(store, "0.0.9+abc", _ => { });
        var same = Assert.Single(await Replay(reviews, ""));
        Assert.Equal((true, "0.0.9+abc", built), (same.Same, same.EngineThen, same.EngineNow));
        await MadeBy(store, "0.0.9+abc", report => report.Findings.RemoveAt(0));
        var other = Assert.Single(await Replay(reviews, ""));
        Assert.Equal((false, $"the report comes out otherwise than it is stored; engine 0.0.9+abc made it, engine {built} replays it"), (other.Same, other.WhyNot));
    }

    private static async Task MadeBy(TestStore store, string engine, Action<Report> change)
    {
        var entry = Assert.Single(await (await store.Open()).Entries(0, null).ToListAsync(TestContext.Current.CancellationToken));
        var act = Act.Parser.ParseFrom(entry.Act);
        var report = Report.Parser.ParseFrom(act.Submitted.Judged.Report);
        report.EngineVersion = engine;
        change(report);
        act.Submitted.Judged.Report = Google.Protobuf.MessageExtensions.ToByteString(report);
        await store.Tamper($"UPDATE entries SET act = x'{Convert.ToHexString(Google.Protobuf.MessageExtensions.ToByteArray(act))}'");
    }

    private static async Task<string> EveryKindOfReport(RunningReviews reviews)
    {
        var first = (await reviews.Submit(Plans.Held())).Receipt;
        var revised = (await reviews.Revise(first.ReviewId, first.Sequence, Plans.Sound())).Receipt;
        await reviews.SignOff(revised);
        reviews.Clock.Set(Plans.Morning);
        var check = await reviews.PreStart(first.ReviewId, Plans.Today());
        await reviews.Client.CloseOutAsync(
            new CloseOutRequest { IdempotencyKey = reviews.Key(), ReviewId = first.ReviewId, SeenVersion = check.Receipt.Sequence, Plan = Plans.AsBuilt() }, RunningReviews.Crew);
        return first.ReviewId;
    }

    private static async Task<List<ReplayReviewsResponse>> Replay(RunningReviews reviews, string review)
    {
        using var call = reviews.Client.ReplayReviews(new ReplayReviewsRequest { ReviewId = review }, RunningReviews.Reader);
        var replays = new List<ReplayReviewsResponse>();
        await foreach (var replay in call.ResponseStream.ReadAllAsync())
        {
            replays.Add(replay);
        }

        return replays;
    }
}
