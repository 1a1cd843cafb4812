using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using FoamRules.Contracts.V1;
using FoamRules.Records.Log;
using FoamRules.Records.Store;
using Grpc.Core;

namespace FoamRules.Records.Tests;

/// <summary>Whoever changes, takes out or moves an entry of the log is found.</summary>
public sealed class LogTests
{
    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    // What is done, and the entry on which it must be found (0: on no single one).
    public static TheoryData<StoreKind, string, long> Tampering
    {
        get
        {
            var data = new TheoryData<StoreKind, string, long>();
            foreach (var kind in new[] { StoreKind.Sqlite, StoreKind.Postgres })
            {
                data.Add(kind, "UPDATE entries SET actor = 'Someone Else' WHERE sequence = 2", 2);
                data.Add(kind, "UPDATE entries SET at_microseconds = at_microseconds + 1 WHERE sequence = 1", 1);
                data.Add(kind, "UPDATE entries SET role = 2 WHERE sequence = 3", 3);
                data.Add(kind, "UPDATE entries SET act = (SELECT act FROM entries WHERE sequence = 3) WHERE sequence = 2", 2);
                data.Add(kind, "DELETE FROM entries WHERE sequence = 1", 2);
                data.Add(kind, "DELETE FROM entries WHERE sequence = 2", 3);
                data.Add(kind, "DELETE FROM entries WHERE sequence = 4", 4);
                data.Add(kind, "UPDATE entries SET sequence = -2 WHERE sequence = 2; UPDATE entries SET sequence = 2 WHERE sequence = 3; UPDATE entries SET sequence = 3 WHERE sequence = -2", 2);
                data.Add(kind, "UPDATE reviews SET disposition = 1", 4);
                data.Add(kind, "UPDATE findings SET released_until = 9000000000000000 WHERE released_until = 0", 4);
                data.Add(kind, "DELETE FROM findings; DELETE FROM reviews", 4);
                data.Add(kind, "UPDATE rule_sets SET text = (SELECT act FROM entries WHERE sequence = 2) WHERE id = 'general-practice'", 0);
                data.Add(kind, "DELETE FROM rule_sets WHERE id = 'general-practice'", 0);
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Tampering))]
    public async Task Tampering_is_found_where_it_was_done(StoreKind kind, string sql, long at)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        await FourEntries(reviews);
        Assert.Empty((await reviews.Verify()).Problems);
        await store.Tamper(sql);
        var problems = (await reviews.Verify()).Problems;
        Assert.Contains(at, problems.Select(problem => problem.Sequence));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task The_store_itself_refuses_to_change_or_delete_an_entry(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        var opened = await store.Open();
        await using var reviews = await RunningReviews.Start(opened, new StillClock());
        await reviews.Submit(Plans.Sound());
        foreach (var sql in new[] { "UPDATE entries SET actor = 'x'", "DELETE FROM entries" })
        {
            var error = await Assert.ThrowsAsync<StoreFaultException>(() => opened.Read(context =>
                Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.ExecuteSqlRawAsync(context.Database, sql)));
            Assert.Contains("entries of the log are never", error.Message, StringComparison.Ordinal);
        }

        Assert.Equal((1, 0), ((int)(await reviews.Verify()).Entries, (await reviews.Verify()).Problems.Count));
    }

    [Fact]
    public async Task An_entry_that_was_changed_with_its_own_hash_is_found_at_the_next()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        await FourEntries(reviews);
        var entries = new List<EntryRow>();
        await foreach (var entry in (await store.Open()).Entries(0, null, TestContext.Current.CancellationToken))
        {
            entries.Add(entry);
        }

        var forged = Forged(entries[1], "Someone Else", entries[0].Hash);
        await store.Tamper($"UPDATE entries SET actor = 'Someone Else', hash = '{forged.Hash}' WHERE sequence = 2");
        Assert.Contains((await reviews.Verify()).Problems, problem => problem.Sequence == 3);
    }

    [Fact]
    public async Task A_log_that_was_forged_to_its_end_or_cut_off_is_found_by_a_hash_that_was_kept_elsewhere()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        await FourEntries(reviews);
        var kept = (await reviews.Verify()).Last;
        Assert.Empty((await reviews.Verify(kept)).Problems);
        var before = EntryHash.BeforeTheFirst;
        var sql = new StringBuilder();
        await foreach (var entry in (await store.Open()).Entries(0, null, TestContext.Current.CancellationToken))
        {
            var forged = Forged(entry, "Someone Else", before);
            sql.Append(CultureInfo.InvariantCulture, $"UPDATE entries SET actor = 'Someone Else', previous_hash = '{before}', hash = '{forged.Hash}' WHERE sequence = {entry.Sequence};");
            before = forged.Hash;
        }

        await store.Tamper(sql.ToString());
        // The whole chain is in order: only what was kept elsewhere tells.
        Assert.Empty((await reviews.Verify()).Problems);
        Assert.Equal(kept.Sequence, Assert.Single((await reviews.Verify(kept)).Problems).Sequence);

        await store.Tamper("DELETE FROM findings; DELETE FROM reviews; DELETE FROM entries");
        Assert.DoesNotContain((await reviews.Verify()).Problems, problem => problem.Sequence != 0);
        Assert.Contains((await reviews.Verify(kept)).Problems, problem => problem.Sequence == kept.Sequence);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task The_export_is_enough_to_verify_the_chain_by_what_the_documentation_says(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using var reviews = await RunningReviews.Start(store);
        await FourEntries(reviews);
        using var export = reviews.Client.ExportLog(new ExportLogRequest(), RunningReviews.Reader);
        var (count, before) = (0, new string('0', 64));
        await foreach (var one in export.ResponseStream.ReadAllAsync())
        {
            var entry = one.Entry;
            Assert.Equal(++count, entry.Sequence);
            Assert.Equal(before, entry.PreviousHash);
            Assert.Equal(Sha256(entry), entry.Hash);
            Assert.Equal(Act.Parser.ParseFrom(entry.Act), one.Act);
            before = entry.Hash;
        }

        Assert.Equal(4, count);
        using var rest = reviews.Client.ExportLog(new ExportLogRequest { After = 3 }, RunningReviews.Reader);
        Assert.True(await rest.ResponseStream.MoveNext(CancellationToken.None));
        Assert.Equal(4, rest.ResponseStream.Current.Entry.Sequence);
    }

    [Fact]
    public async Task A_clock_that_is_set_back_makes_no_entry_older_than_the_one_before()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        await using var reviews = await RunningReviews.Start(store);
        var first = await reviews.Submit(Plans.Sound());
        reviews.Clock.Set(reviews.Clock.GetUtcNow().AddYears(-1));
        Assert.Equal(first.Receipt.At, (await reviews.Submit(Plans.Sound())).Receipt.At);
    }

    private static async Task FourEntries(RunningReviews reviews)
    {
        var submitted = await reviews.Submit(Plans.Held());
        await reviews.Client.AddCommentAsync(new AddCommentRequest { IdempotencyKey = reviews.Key(), ReviewId = submitted.Receipt.ReviewId, Text = "first" }, RunningReviews.Crew);
        await reviews.Client.AddCommentAsync(new AddCommentRequest { IdempotencyKey = reviews.Key(), ReviewId = submitted.Receipt.ReviewId, Text = "second" }, RunningReviews.Crew);
        await reviews.Client.AddCommentAsync(new AddCommentRequest { IdempotencyKey = reviews.Key(), ReviewId = submitted.Receipt.ReviewId, Text = "third" }, RunningReviews.Crew);
    }

    private static EntryRow Forged(EntryRow entry, string actor, string previousHash) => new EntryRow
    {
        Sequence = entry.Sequence,
        AtMicroseconds = entry.AtMicroseconds,
        Actor = actor,
        Role = entry.Role,
        Identity = entry.Identity,
        Kind = entry.Kind,
        ReviewId = entry.ReviewId,
        IdempotencyKey = entry.IdempotencyKey,
        RequestDigest = entry.RequestDigest,
        Act = entry.Act,
        PreviousHash = previousHash,
        Hash = "",
    }.WithHash();

    // Written again from docs/records.md, not from the code.
    private static string Sha256(LogEntry entry)
    {
        var at = (entry.At.Seconds * 1_000_000) + (entry.At.Nanos / 1000);
        byte[][] fields =
        [
            Utf8(entry.Sequence), Utf8(at), Encoding.UTF8.GetBytes(entry.Actor), Utf8((int)entry.Role), Utf8((int)entry.Identity), Utf8((int)entry.Kind),
            Encoding.UTF8.GetBytes(entry.ReviewId), Encoding.UTF8.GetBytes(entry.IdempotencyKey), Encoding.UTF8.GetBytes(entry.RequestDigest),
            entry.Act.ToByteArray(), Encoding.UTF8.GetBytes(entry.PreviousHash),
        ];
        var bytes = new List<byte>(Encoding.UTF8.GetBytes("foamrules-entry-1\n"));
        foreach (var field in fields)
        {
            bytes.AddRange(Encoding.UTF8.GetBytes($"{field.Length}:"));
            bytes.AddRange(field);
            bytes.Add((byte)'\n');
        }

        return Convert.ToHexStringLower(SHA256.HashData([.. bytes]));
    }

    private static byte[] Utf8(long number) => Encoding.UTF8.GetBytes(number.ToString(CultureInfo.InvariantCulture));
}
