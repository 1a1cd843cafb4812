using FoamRules.Contracts.V1;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>An area is released for re-entry only once its time has passed, and only by whom its requirement names.</summary>
public sealed class ReentryTests
{
    // The sheets of both products say 24 h; the foam in the dock ended on the day of the work.
    private static readonly DateTimeOffset LastSpray = Plans.Morning.AddHours(8);

    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task An_area_is_released_when_its_time_has_passed_and_the_release_stands_in_record_log_export_replay_and_certificate(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        var request = Request(reviews, review, 2);
        reviews.Clock.Set(LastSpray.AddHours(24).AddMinutes(-30));
        var early = await RunningReviews.Refused(StatusCode.FailedPrecondition, "REENTRY_NOT_YET", () => Release(reviews, request));
        Says("dock is not released; air.occupants-return-long-enough: occupants are to come back 23.5 h after the last spraying", early);
        Assert.Equal(2, (await reviews.Verify()).Entries);

        reviews.Clock.Set(LastSpray.AddHours(24));
        var released = await Release(reviews, request);
        Assert.Equal((ActKind.ReentryReleased, "Sam Safety"), (released.Receipt.Kind, released.Receipt.Actor));
        Assert.Equal((LastSpray, LastSpray.AddHours(24)), (released.Release.LastSprayAt.ToDateTimeOffset(), released.Release.NotBefore.ToDateTimeOffset()));
        Assert.Equal("survey of a like job by an industrial hygienist", Assert.Single(released.Release.AirborneLevels).Basis);
        Assert.Equal(released, await Release(reviews, request));

        var record = await reviews.Get(review);
        Assert.Equal(released.Release, Assert.Single(record.ReentryReleases));
        Assert.Equal("released dock for occupants as safety officer; last foam 2026-04-14 20:40Z, not before 2026-04-15 20:40Z: looked at by two", record.History[^1].What);
        // The plan and the report that stand are still those of the plan.
        Assert.Equal((Stage.Plan, 1L), (record.Report.Stage, record.ShownSequence));
        var closed = await reviews.Client.CloseOutAsync(
            new CloseOutRequest { IdempotencyKey = reviews.Key(), ReviewId = review, SeenVersion = released.Receipt.Sequence, Plan = Built() }, RunningReviews.Crew);
        Assert.Equal(released.Release, Assert.Single(closed.Certificate.ReentryReleases));
        Assert.Empty((await reviews.Verify()).Problems);

        using var export = reviews.Client.ExportLog(new ExportLogRequest { After = 2 }, RunningReviews.Reader);
        Assert.True(await export.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
        Assert.Equal("dock", export.ResponseStream.Current.Act.ReentryReleased.Release.Area);
        using var replays = reviews.Client.ReplayReviews(new ReplayReviewsRequest { ReviewId = review }, RunningReviews.Reader);
        var replayed = await replays.ResponseStream.ReadAllAsync(TestContext.Current.CancellationToken).ToListAsync(TestContext.Current.CancellationToken);
        Assert.Equal([ActKind.Submitted, ActKind.ReentryReleased, ActKind.ClosedOut], replayed.Select(replay => replay.Receipt.Kind));
        Assert.All(replayed, replay => Assert.True(replay.Same, replay.WhyNot));
    }

    [Fact]
    public async Task What_is_not_met_or_not_known_releases_nothing()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var review = await reviews.Signed(Plans.Sound());
        reviews.Clock.Set(LastSpray.AddDays(3));
        (string Says, Action<ReleaseReentryRequest> Change)[] cases =
        [
            ("an odour remains", request => request.OdourRemains = true),
            ("odour_remains", request => request.ClearOdourRemains()),
            ("not cleaned up", request => request.Cleaned = false),
            ("cleaned", request => request.ClearCleaned()),
            ("covers", request => request.ClearCoversOff()),
        ];
        foreach (var (says, change) in cases)
        {
            var request = Request(reviews, review, 2);
            change(request);
            var refused = await RunningReviews.Refused(StatusCode.FailedPrecondition, "REENTRY_NOT_YET", () => Release(reviews, request));
            Says(says, refused);
        }

        // A level was measured, and nobody knows how the fresh foam goes on giving off: the data sheet alone does not stand against it.
        var measured = Request(reviews, review, 2);
        measured.AirborneLevels.Add(new AirborneLevel
        {
            Substance = Substance.Mdi,
            AtEndByMass = new MassConcentration { MilligramsPerCubicMeter = 0.4 },
            SourcePerHourByMass = new MassConcentration { MilligramsPerCubicMeter = 10 },
            Basis = "measured at the door",
        });
        var unknown = await RunningReviews.Refused(StatusCode.FailedPrecondition, "REENTRY_NOT_YET", () => Release(reviews, measured));
        Says("not given: areas[dock].airborne_levels[0].source_decay", unknown);
        Assert.Equal(2, (await reviews.Verify()).Entries);
    }

    [Fact]
    public async Task Only_whom_the_requirement_names_releases_and_only_against_what_stands()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var submitted = (await reviews.Submit(Plans.Sound())).Receipt;
        reviews.Clock.Set(LastSpray.AddDays(3));
        await RunningReviews.Refused(StatusCode.FailedPrecondition, "NOT_SIGNED_OFF", () => Release(reviews, Request(reviews, submitted.ReviewId, 1)));
        await reviews.SignOff(submitted);
        var review = submitted.ReviewId;
        await RunningReviews.Refused(StatusCode.PermissionDenied, "ROLE_MAY_NOT", () => Release(reviews, Request(reviews, review, 2), RunningReviews.Crew));
        await RunningReviews.Refused(StatusCode.PermissionDenied, "ROLE_MAY_NOT_RELEASE", () => Release(reviews, Request(reviews, review, 2), RunningReviews.Office));
        await RunningReviews.Refused(StatusCode.PermissionDenied, "ROLE_MAY_NOT_RELEASE", () => Release(reviews, Request(reviews, review, 2, request => request.ActingAs = "owner")));
        await RunningReviews.Refused(StatusCode.Aborted, "REVIEW_MOVED_ON", () => Release(reviews, Request(reviews, review, 1)));
        await RunningReviews.Refused(StatusCode.InvalidArgument, "REQUEST_UNREADABLE", () => Release(reviews, Request(reviews, review, 2, request => request.Area = "cellar")));
        await RunningReviews.Refused(StatusCode.InvalidArgument, "REQUEST_UNREADABLE",
            () => Release(reviews, Request(reviews, review, 2, request => request.LastSprayAt = Timestamp.FromDateTimeOffset(reviews.Clock.GetUtcNow().AddMinutes(1)))));

        // Trades have a time of their own. A pre-start check after it starts the clock again; so does a later last foam as built.
        var trades = await Release(reviews, Request(reviews, review, 2, request =>
        {
            request.Group = ReentryGroup.Trades;
            request.ClearCleaned();
            request.ClearCoversOff();
            request.ClearOdourRemains();
        }));
        var check = await reviews.PreStart(review, Plans.Today());
        Assert.Equal(check.Receipt.Sequence, Assert.Single((await reviews.Get(review)).ReentryReleases).OvertakenBy);
        var again = await Release(reviews, Request(reviews, review, check.Receipt.Sequence));
        var built = Built();
        built.Areas.Single(area => area.Id == "dock").LastSprayAt = Timestamp.FromDateTimeOffset(LastSpray.AddHours(1));
        var closed = await reviews.Client.CloseOutAsync(
            new CloseOutRequest { IdempotencyKey = reviews.Key(), ReviewId = review, SeenVersion = again.Receipt.Sequence, Plan = built }, RunningReviews.Crew);
        Assert.Empty(closed.Certificate.ReentryReleases);
        Assert.NotEqual(trades.Release, again.Release);
        await RunningReviews.Refused(StatusCode.InvalidArgument, "REQUEST_UNREADABLE", () => Release(reviews, Request(reviews, review, closed.Receipt.Sequence)));
    }

    private static void Says(string words, RpcException refused) => Assert.True(refused.Status.Detail.Contains(words, StringComparison.Ordinal), refused.Status.Detail);

    private static Plan Built()
    {
        var built = Plans.AsBuilt();
        built.Areas.Single(area => area.Id == "dock").LastSprayAt = Timestamp.FromDateTimeOffset(LastSpray);
        return built;
    }

    internal static ReleaseReentryRequest Request(RunningReviews reviews, string review, long seen, Action<ReleaseReentryRequest>? change = null)
    {
        var request = new ReleaseReentryRequest
        {
            IdempotencyKey = reviews.Key(),
            ReviewId = review,
            SeenVersion = seen,
            Area = "dock",
            Group = ReentryGroup.Occupants,
            LastSprayAt = Timestamp.FromDateTimeOffset(LastSpray),
            Cleaned = true,
            CoversOff = true,
            OdourRemains = false,
            ActingAs = "safety officer",
            Remark = "looked at by two",
        };
        change?.Invoke(request);
        return request;
    }

    private static Task<ReleaseReentryResponse> Release(RunningReviews reviews, ReleaseReentryRequest request, Metadata? caller = null) =>
        reviews.Client.ReleaseReentryAsync(request, caller ?? RunningReviews.Safety).ResponseAsync;
}
