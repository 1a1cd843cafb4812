using System.Diagnostics;
using FoamRules.Contracts.V1;
using FoamRules.Records.Log;
using FoamRules.Records.Store;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace FoamRules.Records.Tests;

/// <summary>Backup while the service writes, and restore, as docs/records.md says.</summary>
public sealed class BackupTests
{
    [Fact]
    public async Task A_SQLite_file_is_copied_while_it_is_written_and_the_copy_verifies()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var first = await reviews.Submit(Plans.Held());
        var backup = Path.Combine(store.Folder, "backup.db");
        var writing = Task.Run(async () =>
        {
            for (var i = 0; i < 20; i++)
            {
                await reviews.Submit(Plans.Sound());
            }
        });
        await using (var connection = new SqliteConnection($"Data Source={store.Place};Pooling=False"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            var copy = connection.CreateCommand();
            copy.CommandText = $"VACUUM INTO '{backup}'";
            await copy.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }

        await writing;
        await MustHold(backup, first.Receipt);
        Assert.Equal(21, (await reviews.Verify()).Entries);
    }

    [Fact]
    public async Task A_PostgreSQL_database_is_dumped_while_it_is_written_and_the_restored_one_verifies()
    {
        await using var store = await TestStore.Create(StoreKind.Postgres);
        Assert.SkipUnless(Has("pg_dump") && Has("pg_restore"), "needs pg_dump and pg_restore");
        await using var reviews = await RunningReviews.Start(store);
        var first = await reviews.Submit(Plans.Held());
        var dump = Path.Combine(store.Folder, "records.dump");
        var writing = Task.Run(async () =>
        {
            for (var i = 0; i < 20; i++)
            {
                await reviews.Submit(Plans.Sound());
            }
        });
        await Run(store, "pg_dump", "--format=custom", $"--file={dump}", $"--dbname={store.Name}");
        await writing;
        await store.OnServer($"CREATE DATABASE {store.Name}_restored");
        try
        {
            await Run(store, "pg_restore", "--exit-on-error", $"--dbname={store.Name}_restored", dump);
            await MustHold(new NpgsqlConnectionStringBuilder(store.Place) { Database = $"{store.Name}_restored", Pooling = false }.ToString(), first.Receipt);
        }
        finally
        {
            await store.OnServer($"DROP DATABASE {store.Name}_restored WITH (FORCE)");
        }
    }

    // The copy verifies, holds what was acknowledged before it was made, replays, and can be gone on with.
    private static async Task MustHold(string place, Receipt receipt)
    {
        var restored = RecordStore.At(place, new StillClock());
        await restored.Prepare(TestContext.Current.CancellationToken);
        var verified = await new LogVerifier(restored).Verify([new KnownEntry { Sequence = receipt.Sequence, Hash = receipt.Hash }], TestContext.Current.CancellationToken);
        Assert.Empty(verified.Problems);
        Assert.InRange(verified.Entries, 1, 21);
        await using var reviews = await RunningReviews.Start(restored, new StillClock());
        Assert.Equal(Plans.Held(), (await reviews.Get(receipt.ReviewId)).Plan);
        await reviews.Release(reviews.WallRelease(receipt), RunningReviews.Safety);
        Assert.Empty((await reviews.Verify()).Problems);
    }

    private static async Task Run(TestStore store, string program, params string[] arguments)
    {
        var server = new NpgsqlConnectionStringBuilder(store.Place);
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardError = true, UseShellExecute = false };
        start.Environment["PGHOST"] = server.Host;
        start.Environment["PGPORT"] = server.Port.ToString(System.Globalization.CultureInfo.InvariantCulture);
        start.Environment["PGUSER"] = server.Username;
        start.Environment["PGPASSWORD"] = server.Password;
        using var process = Process.Start(start)!;
        var errors = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 0, errors);
    }

    private static bool Has(string program) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, program)));
}
