using FoamRules.Service;
using FoamRules.Testing;
using Grpc.Health.V1;
using Grpc.Net.Client;
using Microsoft.Data.Sqlite;
using static Grpc.Health.V1.HealthCheckResponse.Types;

namespace FoamRules.Records.Tests;

/// <summary>Ready is who can put on record; alive is who runs.</summary>
public sealed class HealthTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Readiness_looks_at_the_store_and_liveness_does_not(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, Log = new RunningReviews.Silence(), Records = await store.Open() });
        await service.StartAsync(TestContext.Current.CancellationToken);
        using var channel = GrpcChannel.ForAddress(service.Urls.First());
        var health = new Health.HealthClient(channel);
        Assert.Equal((ServingStatus.Serving, ServingStatus.Serving, ServingStatus.Serving), await Asked());

        await TakeAway(store);
        Assert.Equal((ServingStatus.NotServing, ServingStatus.NotServing, ServingStatus.Serving), await Asked());

        async Task<(ServingStatus, ServingStatus, ServingStatus)> Asked() => (await Of(""), await Of("readiness"), await Of("liveness"));
        async Task<ServingStatus> Of(string name) =>
            (await health.CheckAsync(new HealthCheckRequest { Service = name }, cancellationToken: TestContext.Current.CancellationToken)).Status;
    }

    [Fact]
    public async Task Tables_that_are_not_up_to_date_are_not_ready()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        var records = await store.Open();
        Assert.Null(await records.WhyNotReady(TestContext.Current.CancellationToken));
        await store.Tamper("DELETE FROM __EFMigrationsHistory");
        Assert.Equal("the tables are missing or not up to date", await records.WhyNotReady(TestContext.Current.CancellationToken));
    }

    private static async Task TakeAway(TestStore store)
    {
        if (store.Kind == StoreKind.Postgres)
        {
            await store.OnServer($"DROP DATABASE {store.Name} WITH (FORCE)");
            return;
        }

        SqliteConnection.ClearAllPools();
        File.Move(store.Place, store.Place + ".gone");
    }
}
