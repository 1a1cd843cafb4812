using FoamRules.Contracts.V1;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>Two instances of the service on one store.</summary>
public sealed class RaceTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Of_two_who_release_one_hold_one_wins_and_the_other_is_told(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var one = await RunningReviews.Start(store);
        await using var two = await RunningReviews.Start(store);
        for (var round = 0; round < 10; round++)
        {
            var seen = (await one.Client.SubmitPlanAsync(new SubmitPlanRequest { IdempotencyKey = $"submit-{round}", Plan = Plans.Held() }, RunningReviews.Office)).Receipt;
            var (first, second) = (one.WallRelease(seen), two.WallRelease(seen));
            (first.IdempotencyKey, second.IdempotencyKey) = ($"one-{round}", $"two-{round}");
            var codes = await Task.WhenAll(Try(() => one.Release(first, RunningReviews.Safety)), Try(() => two.Release(second, RunningReviews.Safety)));
            Assert.Equal([StatusCode.OK, StatusCode.Aborted], codes.Order());
            Assert.Single((await two.Get(seen.ReviewId)).Releases);
        }

        var verified = await one.Verify();
        Assert.Empty(verified.Problems);
        Assert.Equal(20, verified.Entries);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Many_who_write_at_once_all_get_an_entry_and_the_same_key_gets_one(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var one = await RunningReviews.Start(store);
        await using var two = await RunningReviews.Start(store);
        var review = (await one.Submit(Plans.Sound())).Receipt.ReviewId;
        var receipts = await Task.WhenAll(Enumerable.Range(0, 40).Select(async i =>
        {
            // Each key is sent to both instances at the same time.
            var request = new AddCommentRequest { IdempotencyKey = $"remark-{i / 2}", ReviewId = review, Text = $"remark {i / 2}" };
            return (await (i % 2 == 0 ? one : two).Client.AddCommentAsync(request, RunningReviews.Crew)).Receipt;
        }));
        Assert.Equal(20, receipts.DistinctBy(receipt => receipt.Sequence).Count());
        var verified = await two.Verify();
        Assert.Empty(verified.Problems);
        Assert.Equal(21, verified.Entries);
    }

    private static async Task<StatusCode> Try(Func<Task> call)
    {
        try
        {
            await call();
            return StatusCode.OK;
        }
        catch (RpcException error)
        {
            return error.StatusCode;
        }
    }
}
