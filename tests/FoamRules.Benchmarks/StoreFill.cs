using System.Diagnostics;
using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Records;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using FoamRules.Testing;
using Google.Protobuf;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace FoamRules.Benchmarks;

/// <summary>
/// Fills an empty PostgreSQL database fast, for measuring: some plans are really submitted, then their rows are written over and over
/// under new ids, each entry with its hash. The list of findings, in which only searches look, is left to the plans that were submitted.
/// </summary>
internal static class StoreFill
{
    private const int OneCaseIn = 40;

    public static async Task Fill(string place, int reviews)
    {
        var started = Stopwatch.GetTimestamp();
        var store = RecordStore.At(place, TimeProvider.System);
        await store.Prepare();
        var desk = new ReviewDesk(store, () => Repository.Engine);
        foreach (var (number, plan) in Plans().Index())
        {
            await desk.Submit(new SubmitPlanRequest { IdempotencyKey = Key(number), Plan = plan }, new Caller("Filler", Role.Office), CancellationToken.None);
        }

        var seeds = await store.Entries(0, null).ToListAsync();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{seeds.Count} plans submitted, entries of {seeds.Average(seed => seed.Act.Length) / 1024:0} KiB on average; {Seconds(started):0} s"));
        var lists = await store.Read(context => context.Reviews.AsNoTracking().ToDictionaryAsync(row => row.Id));
        await using var database = new NpgsqlConnection(place);
        await database.OpenAsync();
        var copies = new List<(string Id, long Sequence, ReviewRow Of)>();
        await using (var entries = await database.BeginBinaryImportAsync(
            "COPY entries (sequence, at_microseconds, actor, role, identity, kind, review_id, idempotency_key, request_digest, act, previous_hash, hash) FROM STDIN (FORMAT BINARY)"))
        {
            for (var (number, before) = (seeds.Count, seeds[^1]); number < reviews; number++)
            {
                before = CopyBehind(before, seeds[number % seeds.Count], number);
                copies.Add((before.ReviewId, before.Sequence, lists[seeds[number % seeds.Count].ReviewId]));
                await entries.WriteRowAsync(default, before.Sequence, before.AtMicroseconds, before.Actor, before.Role, before.Identity, before.Kind, before.ReviewId,
                    before.IdempotencyKey, before.RequestDigest, before.Act, before.PreviousHash, before.Hash);
            }

            await entries.CompleteAsync();
        }

        await using (var rows = await database.BeginBinaryImportAsync(
            "COPY reviews (id, first_sequence, version, summary, search_text, work_date, disposition) FROM STDIN (FORMAT BINARY)"))
        {
            foreach (var (id, sequence, of) in copies)
            {
                var summary = ReviewSummary.Parser.ParseFrom(of.Summary);
                (summary.ReviewId, summary.Version) = (id, sequence);
                await rows.WriteRowAsync(default, id, sequence, sequence, summary.ToByteArray(), of.SearchText, (object?)of.WorkDate ?? DBNull.Value, of.Disposition);
            }

            await rows.CompleteAsync();
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{reviews} reviews stored; {Seconds(started):0} s"));
    }

    // The example plans, and some of the cases, which are smaller and of every shape.
    private static IEnumerable<Plan> Plans() => Directory.EnumerateFiles(Repository.PathOf("shared", "plans"), "*.yaml").Order(StringComparer.Ordinal).Select(File.ReadAllText)
        .Concat(CaseFiles.Read().SelectMany(file => file.Cases).Select(one => one.PlanJson).Where((_, at) => at % OneCaseIn == 0))
        .Select(text => PlanReader.ReadText(text, null, new ReadOptions(DateTimeOffset.UnixEpoch)))
        .Where(read => read.Plan is { Stage: Model.Stage.Quote or Model.Stage.Plan }).Select(read => read.Message!);

    private static EntryRow CopyBehind(EntryRow before, EntryRow seed, int number) => new EntryRow
    {
        Sequence = before.Sequence + 1,
        AtMicroseconds = before.AtMicroseconds,
        Actor = seed.Actor,
        Role = seed.Role,
        Identity = seed.Identity,
        Kind = seed.Kind,
        ReviewId = Guid.CreateVersion7().ToString("N"),
        IdempotencyKey = Key(number),
        RequestDigest = seed.RequestDigest,
        Act = seed.Act,
        PreviousHash = before.Hash,
        Hash = "",
    }.WithHash();

    private static string Key(int number) => string.Create(CultureInfo.InvariantCulture, $"fill-{number}");

    private static double Seconds(long started) => Stopwatch.GetElapsedTime(started).TotalSeconds;
}
