using System.Collections.Concurrent;
using FoamRules.Contracts.V1;
using FoamRules.Records.Log;
using Grpc.Core;
using Grpc.Net.Client;

namespace FoamRules.Records.Tests;

/// <summary>The service is killed in the middle of a thousand submissions.</summary>
public sealed class KillTests
{
    // What is judged does not matter here: a quote without people is judged and written sooner.
    private static readonly Plan Small = SmallPlan();

    private const int Submissions = 1000;
    private const int AtOnce = 8;
    private const int KilledAfter = 60;

    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task All_that_was_acknowledged_is_there_and_verifies_and_no_half_one(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        var acknowledged = new ConcurrentDictionary<string, Receipt>();
        var (next, unanswered) = (0, new ConcurrentBag<string>());
        await using (var server = await ChildServer.Start(store.Place))
        {
            using var channel = GrpcChannel.ForAddress(server.Address);
            var client = new ReviewService.ReviewServiceClient(channel);
            var enough = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            var senders = Enumerable.Range(0, AtOnce).Select(async _ =>
            {
                while (Interlocked.Increment(ref next) is var i && i <= Submissions)
                {
                    try
                    {
                        acknowledged[$"k{i}"] = (await Submit(client, $"k{i}")).Receipt;
                        if (acknowledged.Count == KilledAfter)
                        {
                            enough.SetResult();
                        }
                    }
                    catch (RpcException)
                    {
                        unanswered.Add($"k{i}");
                        return;
                    }
                }
            }).ToList();
            await enough.Task.WaitAsync(TimeSpan.FromMinutes(2), TestContext.Current.CancellationToken);
            await server.Kill();
            await Task.WhenAll(senders);
        }

        Assert.InRange(acknowledged.Count, KilledAfter, Submissions - 1);
        Assert.NotEmpty(unanswered);
        var opened = await store.Open();
        var verified = await new LogVerifier(opened).Verify([.. acknowledged.Values.Select(receipt => new KnownEntry { Sequence = receipt.Sequence, Hash = receipt.Hash })], TestContext.Current.CancellationToken);
        Assert.Empty(verified.Problems);
        Assert.InRange(verified.Entries, acknowledged.Count, acknowledged.Count + unanswered.Count);

        // Started again, it goes on; what was not acknowledged is sent again with its key and is there once.
        await using var again = await RunningReviews.Start(opened, new StillClock());
        var retried = again.Client;
        foreach (var key in unanswered)
        {
            await Submit(retried, key);
        }

        var one = acknowledged.First();
        Assert.Equal(one.Value, (await Submit(retried, one.Key)).Receipt);
        var whole = await new LogVerifier(opened).Verify([], TestContext.Current.CancellationToken);
        Assert.Empty(whole.Problems);
        Assert.Equal(acknowledged.Count + unanswered.Count, whole.Entries);
    }

    private static Plan SmallPlan()
    {
        var plan = Plans.Sound();
        plan.Stage = Stage.Quote;
        plan.People.Clear();
        return plan;
    }

    private static async Task<SubmitPlanResponse> Submit(ReviewService.ReviewServiceClient client, string key) =>
        await client.SubmitPlanAsync(new SubmitPlanRequest { IdempotencyKey = key, Plan = Small }, RunningReviews.Office);
}
