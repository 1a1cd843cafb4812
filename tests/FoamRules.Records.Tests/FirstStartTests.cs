using FoamRules.Records.Log;
using Microsoft.Data.Sqlite;

namespace FoamRules.Records.Tests;

/// <summary>A first start that was cut short does not block the next one.</summary>
public sealed class FirstStartTests
{
    [Fact]
    public async Task The_mark_of_a_process_that_was_killed_while_it_made_the_tables_blocks_nobody()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        // As the library that makes the tables leaves it.
        await using (var connection = new SqliteConnection($"Data Source={store.Place};Pooling=False"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            await using var command = connection.CreateCommand();
            command.CommandText = """
                PRAGMA journal_mode = 'wal';
                CREATE TABLE "__EFMigrationsLock" ("Id" INTEGER NOT NULL CONSTRAINT "PK___EFMigrationsLock" PRIMARY KEY, "Timestamp" TEXT NOT NULL);
                INSERT INTO "__EFMigrationsLock" VALUES (1, '2026-04-10 15:00:00+00:00');
                """;
            await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
        }

        await Prepared(store);
    }

    [Fact]
    public async Task What_a_process_that_was_killed_had_half_written_is_undone_by_the_next_one()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        var cut = Path.Combine(store.Folder, "cut.db");
        // A cache of one page writes to the file before the commit; the copy is what a power cut at that moment leaves.
        await using (var connection = new SqliteConnection($"Data Source={cut};Pooling=False"))
        {
            await connection.OpenAsync(TestContext.Current.CancellationToken);
            await using var command = connection.CreateCommand();
            command.CommandText = """
                PRAGMA cache_size = 1;
                CREATE TABLE half (text TEXT);
                BEGIN;
                WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 2000) INSERT INTO half SELECT hex(randomblob(100)) FROM n;
                """;
            await command.ExecuteNonQueryAsync(TestContext.Current.CancellationToken);
            File.Copy(cut, store.Place);
            File.Copy(cut + "-journal", store.Place + "-journal");
        }

        await Prepared(store);
    }

    [Fact]
    public async Task A_process_that_is_killed_in_its_first_start_leaves_a_file_with_which_the_next_one_starts()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await ChildServer.KilledOnce(store.Place, () => File.Exists(store.Place) && new FileInfo(store.Place).Length > 0);
        Assert.True(File.Exists(store.Place));
        await Prepared(store);
    }

    [Theory]
    [MemberData(nameof(TestStore.Kinds), MemberType = typeof(TestStore))]
    public async Task Several_that_start_at_once_on_one_new_store_all_start(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => Prepared(store), TestContext.Current.CancellationToken)));
    }

    private static async Task Prepared(TestStore store)
    {
        var opened = await store.Open().WaitAsync(TimeSpan.FromMinutes(1), TestContext.Current.CancellationToken);
        Assert.Null(await opened.WhyNotReady(TestContext.Current.CancellationToken));
        Assert.Empty((await new LogVerifier(opened).Verify([], TestContext.Current.CancellationToken)).Problems);
    }
}
