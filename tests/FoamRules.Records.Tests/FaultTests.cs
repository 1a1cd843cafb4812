using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using Grpc.Core;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace FoamRules.Records.Tests;

/// <summary>A store that fails: a clear status, nothing half-written, and the same key does it later.</summary>
public sealed class FaultTests
{
    private static readonly SubmitPlanRequest Request = new() { IdempotencyKey = "again", Plan = Plans.Sound() };

    [Fact]
    public async Task A_file_that_cannot_be_written_is_unavailable_and_can_still_be_read()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var writing = await RunningReviews.Start(store);
        var review = (await writing.Submit(Plans.Sound())).Receipt.ReviewId;
        // Tests may run as root, whom no file mode stops: SQLite itself is told to refuse writing, with the same error.
        var clock = new StillClock();
        await using var reading = await RunningReviews.Start(await store.Open(clock, "query_only = ON"), clock);
        await RunningReviews.Refused(StatusCode.Unavailable, "STORE_UNAVAILABLE", () => Submit(reading));
        Assert.Equal(review, (await reading.Get(review)).Summary.ReviewId);
        Assert.Equal(1, (await reading.Verify()).Entries);
        await Submit(writing);
    }

    [Fact]
    public async Task A_full_disk_is_resource_exhausted_and_nothing_is_half_written()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        await reviews.Submit(Plans.Sound());
        // SQLite's own limit of pages gives the same error as a disk without room; a small disk of its own needs root.
        var clock = new StillClock();
        await using var full = await RunningReviews.Start(await store.Open(clock, "max_page_count = 1"), clock);
        await RunningReviews.Refused(StatusCode.ResourceExhausted, "STORE_FULL", () => Submit(full));
        var verified = await reviews.Verify();
        Assert.Equal((1, 0), ((int)verified.Entries, verified.Problems.Count));
        await Submit(reviews);
        Assert.Equal(2, (await reviews.Verify()).Entries);
    }

    [Fact]
    public async Task A_disk_that_is_really_full_is_resource_exhausted_and_nothing_is_half_written()
    {
        // Room for the file and its log of writes, which keeps its size until the last connection is closed.
        using var disk = SmallDisk.Mount("4m");
        var clock = new StillClock();
        var place = Path.Combine(disk.Path, "records.db");
        await using var reviews = await RunningReviews.Start(await Opened(place, clock), clock);
        await reviews.Submit(Plans.Sound());
        // Something else fills the disk; then there is room again.
        var ballast = Path.Combine(disk.Path, "ballast");
        FillUp(ballast);
        await RunningReviews.Refused(StatusCode.ResourceExhausted, "STORE_FULL", () => Submit(reviews));
        File.Delete(ballast);
        var verified = await reviews.Verify();
        Assert.Equal((1, 0), ((int)verified.Entries, verified.Problems.Count));
        await Submit(reviews);
        Assert.Empty((await reviews.Verify()).Problems);
    }

    [Fact]
    public async Task A_disk_that_is_really_read_only_is_unavailable()
    {
        using var disk = SmallDisk.Mount("8m");
        var clock = new StillClock();
        var place = Path.Combine(disk.Path, "records.db");
        await using (var before = await RunningReviews.Start(await Opened(place, clock), clock))
        {
            await before.Submit(Plans.Sound());
        }

        SqliteConnection.ClearAllPools();
        disk.MakeReadOnly();
        await using var reviews = await RunningReviews.Start(RecordStore.At(place, clock), clock);
        await RunningReviews.Refused(StatusCode.Unavailable, "STORE_UNAVAILABLE", () => Submit(reviews));
        disk.MakeWritable();
        SqliteConnection.ClearAllPools();
        Assert.Equal((1, 0), ((int)(await reviews.Verify()).Entries, (await reviews.Verify()).Problems.Count));
        await Submit(reviews);
    }

    [Fact]
    public async Task A_file_that_is_taken_away_in_the_middle_of_a_request_acknowledges_nothing()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        await reviews.Submit(Plans.Sound());
        Task<SubmitPlanResponse> waiting;
        await using (var other = new SqliteConnection($"Data Source={store.Place};Pooling=False"))
        {
            await other.OpenAsync(TestContext.Current.CancellationToken);
            await using var transaction = other.BeginTransaction();
            waiting = Submit(reviews);
            await Task.Delay(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);
            Assert.False(waiting.IsCompleted);
            File.Move(store.Place, store.Place + ".moved");
            await transaction.RollbackAsync(TestContext.Current.CancellationToken);
        }

        await RunningReviews.Refused(StatusCode.Unavailable, "STORE_UNAVAILABLE", () => waiting);
        await RunningReviews.Refused(StatusCode.Unavailable, "STORE_UNAVAILABLE", () => Submit(reviews));
        File.Move(store.Place + ".moved", store.Place);
        SqliteConnection.ClearAllPools();
        Assert.Equal(1, (await reviews.Verify()).Entries);
        await Submit(reviews);
        Assert.Empty((await reviews.Verify()).Problems);
    }

    [Fact]
    public async Task A_file_that_is_no_store_is_damaged()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        SqliteConnection.ClearAllPools();
        await File.WriteAllTextAsync(store.Place, new string('x', 8192), TestContext.Current.CancellationToken);
        await RunningReviews.Refused(StatusCode.DataLoss, "STORE_DAMAGED", () => Submit(reviews));
    }

    [Fact]
    public async Task A_database_that_goes_in_the_middle_of_a_request_is_unavailable_and_nothing_is_half_written()
    {
        await using var store = await TestStore.Create(StoreKind.Postgres);
        await using var reviews = await RunningReviews.Start(store);
        await reviews.Submit(Plans.Sound());
        await using (var other = new NpgsqlConnection(store.Place))
        {
            await other.OpenAsync(TestContext.Current.CancellationToken);
            // A writer elsewhere holds the writers' lock, so that the request stands in its transaction when its connection is cut.
            await Run(other, "SELECT pg_advisory_lock(1181704557)");
            var waiting = Submit(reviews);
            while ((long)(await Run(other, "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event = 'advisory'"))! == 0)
            {
                await Task.Delay(20, TestContext.Current.CancellationToken);
            }

            await Run(other, "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()");
            await RunningReviews.Refused(StatusCode.Unavailable, "STORE_UNAVAILABLE", () => waiting);
        }

        NpgsqlConnection.ClearAllPools();
        var verified = await reviews.Verify();
        Assert.Equal((1, 0), ((int)verified.Entries, verified.Problems.Count));
        await Submit(reviews);
        Assert.Equal(2, (await reviews.Verify()).Entries);
    }

    [Theory]
    [InlineData("53100", StatusCode.ResourceExhausted, "STORE_FULL")]
    [InlineData("25006", StatusCode.Unavailable, "STORE_UNAVAILABLE")]
    public async Task A_database_without_room_or_that_cannot_be_written_says_so(string state, StatusCode code, string reason)
    {
        await using var store = await TestStore.Create(StoreKind.Postgres);
        await using var reviews = await RunningReviews.Start(store);
        // A trigger raises what the server raises; the last table that is written, so that everything before is undone.
        await store.Tamper($"CREATE FUNCTION fail() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'no' USING ERRCODE = '{state}'; END $$; CREATE TRIGGER fail BEFORE INSERT ON reviews FOR EACH ROW EXECUTE FUNCTION fail()");
        await RunningReviews.Refused(code, reason, () => Submit(reviews));
        Assert.Equal(0, (await reviews.Verify()).Entries);
        await store.Tamper("DROP TRIGGER fail ON reviews");
        await Submit(reviews);
        Assert.Empty((await reviews.Verify()).Problems);
    }

    [Theory]
    [InlineData("/no/such/folder/records.db")]
    [InlineData("Host=127.0.0.1;Port=1;Username=nobody;Timeout=2")]
    public async Task A_store_that_cannot_be_opened_says_so_at_start(string place)
    {
        var store = Store.RecordStore.At(place, new StillClock());
        await Assert.ThrowsAsync<Store.StoreFaultException>(() => store.Prepare(TestContext.Current.CancellationToken));
    }

    private static async Task<RecordStore> Opened(string place, TimeProvider clock)
    {
        var store = RecordStore.At(place, clock);
        await store.Prepare(TestContext.Current.CancellationToken);
        return store;
    }

    private static void FillUp(string file)
    {
        using var stream = new FileStream(file, FileMode.Create, FileAccess.Write, FileShare.None, bufferSize: 0);
        var block = new byte[4096];
        try
        {
            while (true)
            {
                stream.Write(block);
            }
        }
        catch (IOException)
        {
            // There is no room left, which is what was wanted.
        }
    }

    private static Task<SubmitPlanResponse> Submit(RunningReviews reviews) => reviews.Client.SubmitPlanAsync(Request, RunningReviews.Office).ResponseAsync;

    private static async Task<object?> Run(NpgsqlConnection connection, string sql)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync(TestContext.Current.CancellationToken);
    }
}
