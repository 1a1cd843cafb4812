using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using FoamRules.Contracts.V1;
using FoamRules.Records.Log;
using FoamRules.Records.Reviews;
using Google.Protobuf;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace FoamRules.Records.Store;

/// <summary>Who asks for an act, and with which request.</summary>
/// <param name="Caller">Who.</param>
/// <param name="IdempotencyKey">The caller's key.</param>
/// <param name="RequestDigest">SHA-256 of the request, in hexadecimal.</param>
/// <param name="ReviewId">The review.</param>
public sealed record Asked(Caller Caller, string IdempotencyKey, string RequestDigest, string ReviewId);

/// <summary>What is to be written.</summary>
/// <param name="Act">The act.</param>
/// <param name="RuleSets">The rule sets that it was judged with; those that are kept already are not written again.</param>
public sealed record Decision(Act Act, IReadOnlyList<RuleSetRow> RuleSets);

/// <summary>
/// The log and what follows from it, on SQLite or PostgreSQL. Entries are only ever added, one after the other: a writer reads
/// the end of the log, decides on what stands there, and writes behind it, all in one transaction.
/// </summary>
public sealed class RecordStore
{
    private const int Attempts = 3;
    private readonly Func<bool, RecordsContext> _open;
    private readonly TimeProvider _clock;
    private readonly ConcurrentDictionary<string, bool> _kept = new(StringComparer.Ordinal);

    private RecordStore(Func<bool, RecordsContext> open, TimeProvider clock)
    {
        _open = open;
        _clock = clock;
    }

    /// <summary>A store; nothing is opened yet.</summary>
    /// <param name="place">The SQLite file, or a PostgreSQL connection string: one that names a <c>Host</c>.</param>
    /// <param name="clock">The clock that entries are dated by.</param>
    public static RecordStore At(string place, TimeProvider clock) => At(place, clock, []);

    /// <summary>A store whose SQLite connections begin with these pragmas, too.</summary>
    internal static RecordStore At(string place, TimeProvider clock, params string[] pragmas)
    {
        if (place.Contains("Host=", StringComparison.OrdinalIgnoreCase))
        {
            var options = new DbContextOptionsBuilder<PostgresContext>().UseNpgsql(place).Options;
            return new RecordStore(_ => new PostgresContext(options), clock);
        }

        var begin = new SqliteBegin(pragmas);
        // A pool is shared by all who open the same file; what is special to this store must not reach the others.
        var pooled = pragmas.Length == 0;
        var creating = Sqlite(place, SqliteOpenMode.ReadWriteCreate, begin, pooled);
        var present = Sqlite(place, SqliteOpenMode.ReadWrite, begin, pooled);
        return new RecordStore(mayCreate => new SqliteContext(mayCreate ? creating : present), clock);
    }

    /// <summary>Creates the tables where they are missing, and brings older ones up to date.</summary>
    /// <exception cref="StoreFaultException">The store does not answer or cannot be written.</exception>
    public Task Prepare(CancellationToken cancellation = default) => Guarded(async () =>
    {
        await using var context = _open(true);
        // Asked first, so that a store that is up to date can be opened where it cannot be written.
        if (!await IsCurrent(context, cancellation).ConfigureAwait(false))
        {
            await context.BringUpToDate(cancellation).ConfigureAwait(false);
        }

        return true;
    });

    /// <summary>What is wrong with the store at this moment; null: it answers, and its tables are up to date.</summary>
    public async Task<string?> WhyNotReady(CancellationToken cancellation = default)
    {
        try
        {
            return await Read(context => IsCurrent(context, cancellation)).ConfigureAwait(false) ? null : "the tables are missing or not up to date";
        }
        catch (StoreFaultException fault)
        {
            return fault.Kind == StoreFaultKind.Damaged ? "the store is damaged" : "the store does not answer";
        }
    }

    /// <summary>Adds an act, or finds the one that the same key has added before.</summary>
    /// <param name="asked">Who asks, and with which key.</param>
    /// <param name="decide">Decides on what stands of the review, while no one else can write; it may be asked again.</param>
    /// <param name="cancellation">Gives up where the caller does; before the commit nothing is written.</param>
    /// <exception cref="StoreFaultException">The store does not answer or cannot be written.</exception>
    /// <exception cref="RefusedException">The act is refused; nothing is written.</exception>
    public Task<EntryRow> Append(Asked asked, Func<ReviewState, Decision> decide, CancellationToken cancellation = default) => Guarded(async () =>
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await TryAppend(asked, decide, cancellation).ConfigureAwait(false);
            }
            catch (Exception error) when (StoreFaultException.IsLostRace(error))
            {
                if (attempt == Attempts)
                {
                    throw new RefusedException(Refused.LostRace, "LOST_RACE", "others wrote at the same moment, several times in a row; nothing was done; look again and repeat");
                }
            }
        }
    });

    /// <summary>The entry that a key has added before; null: none.</summary>
    /// <exception cref="RefusedException">The key was used with another request.</exception>
    public Task<EntryRow?> Find(Asked asked, CancellationToken cancellation = default) => Guarded(async () =>
    {
        await using var context = _open(false);
        return await Find(context, asked, cancellation).ConfigureAwait(false);
    });

    /// <summary>The entries of a review, the first first; empty where there is none.</summary>
    public Task<List<EntryRow>> EntriesOf(string reviewId, CancellationToken cancellation = default) => Guarded(async () =>
    {
        await using var context = _open(false);
        return await History(context, reviewId, cancellation).ConfigureAwait(false);
    });

    /// <summary>The entries after one, the first first, read in parts so that a long log does not fill the memory.</summary>
    public async IAsyncEnumerable<EntryRow> Entries(long after, string? reviewId, [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        const int part = 100;
        while (true)
        {
            var from = after;
            var rows = await Read(context => context.Entries.AsNoTracking()
                .Where(row => row.Sequence > from && (reviewId == null || row.ReviewId == reviewId))
                .OrderBy(row => row.Sequence).Take(part).ToListAsync(cancellation)).ConfigureAwait(false);
            foreach (var row in rows)
            {
                yield return row;
            }

            if (rows.Count < part)
            {
                yield break;
            }

            after = rows[^1].Sequence;
        }
    }

    /// <summary>Reads from the tables.</summary>
    internal Task<T> Read<T>(Func<RecordsContext, Task<T>> read) => Guarded(async () =>
    {
        await using var context = _open(false);
        return await read(context).ConfigureAwait(false);
    });

    /// <summary>Changes tables beside the log, in one transaction, while no one else writes.</summary>
    internal Task<T> Write<T>(Func<RecordsContext, Task<T>> write, CancellationToken cancellation) => Guarded(async () =>
    {
        await using var context = _open(false);
        await using var transaction = await context.Database.BeginTransactionAsync(cancellation).ConfigureAwait(false);
        await context.BecomeTheOnlyWriter(cancellation).ConfigureAwait(false);
        var result = await write(context).ConfigureAwait(false);
        context.MustStillBeThere();
        await transaction.CommitAsync(CancellationToken.None).ConfigureAwait(false);
        return result;
    });

    /// <summary>Now, as fine as the stores keep it.</summary>
    internal DateTimeOffset Now() => Times.Of(Times.Microseconds(_clock.GetUtcNow()));

    private async Task<EntryRow> TryAppend(Asked asked, Func<ReviewState, Decision> decide, CancellationToken cancellation)
    {
        await using var context = _open(false);
        await using var transaction = await context.Database.BeginTransactionAsync(cancellation).ConfigureAwait(false);
        await context.BecomeTheOnlyWriter(cancellation).ConfigureAwait(false);
        if (await Find(context, asked, cancellation).ConfigureAwait(false) is { } done)
        {
            return done;
        }

        var last = await context.Entries.AsNoTracking().OrderByDescending(row => row.Sequence)
            .Select(row => new { row.Sequence, row.Hash, row.AtMicroseconds }).FirstOrDefaultAsync(cancellation).ConfigureAwait(false);
        var history = await History(context, asked.ReviewId, cancellation).ConfigureAwait(false);
        var decision = decide(ReviewState.Of(history));
        var entry = Entry(asked, decision.Act, (last?.Sequence ?? 0) + 1, last?.Hash ?? EntryHash.BeforeTheFirst, last?.AtMicroseconds ?? 0);
        context.Entries.Add(entry);
        var missing = await Missing(context, decision.RuleSets, cancellation).ConfigureAwait(false);
        context.RuleSets.AddRange(missing);
        var projected = Projection.Of(ReviewState.Of([.. history, entry]));
        if (history.Count == 0)
        {
            context.Reviews.Add(projected);
        }
        else
        {
            var stored = await context.Reviews.SingleAsync(row => row.Id == asked.ReviewId, cancellation).ConfigureAwait(false);
            await context.Findings.Where(row => row.ReviewId == asked.ReviewId).ExecuteDeleteAsync(cancellation).ConfigureAwait(false);
            context.Entry(stored).CurrentValues.SetValues(projected);
            context.Findings.AddRange(projected.Findings);
        }

        await context.SaveChangesAsync(cancellation).ConfigureAwait(false);
        context.MustStillBeThere();
        // Once the commit is on its way it is not given up: the caller could not know how it ended.
        await transaction.CommitAsync(CancellationToken.None).ConfigureAwait(false);
        foreach (var set in decision.RuleSets)
        {
            _kept.TryAdd(set.Digest, true);
        }

        return entry;
    }

    // Rule sets are kept for good, so those that were seen need not be looked for again.
    private async Task<List<RuleSetRow>> Missing(RecordsContext context, IReadOnlyList<RuleSetRow> sets, CancellationToken cancellation)
    {
        var unseen = sets.Where(set => !_kept.ContainsKey(set.Digest)).ToList();
        var digests = unseen.ConvertAll(set => set.Digest);
        var there = digests.Count == 0 ? [] : await context.RuleSets.Where(row => digests.Contains(row.Digest)).Select(row => row.Digest).ToListAsync(cancellation).ConfigureAwait(false);
        return unseen.FindAll(set => !there.Contains(set.Digest));
    }

    private static async Task<bool> IsCurrent(RecordsContext context, CancellationToken cancellation) =>
        await context.Database.CanConnectAsync(cancellation).ConfigureAwait(false)
        && !(await context.Database.GetPendingMigrationsAsync(cancellation).ConfigureAwait(false)).Any();

    // A clock that was set back must not make an entry older than the one before it.
    private EntryRow Entry(Asked asked, Act act, long sequence, string previousHash, long notBefore)
    {
        var entry = new EntryRow
        {
            Sequence = sequence,
            AtMicroseconds = Math.Max(Times.Microseconds(_clock.GetUtcNow()), notBefore),
            Actor = asked.Caller.Name,
            Role = (int)asked.Caller.Role,
            Identity = (int)asked.Caller.Identity,
            Kind = (int)act.ActCase,
            ReviewId = asked.ReviewId,
            IdempotencyKey = asked.IdempotencyKey,
            RequestDigest = asked.RequestDigest,
            Act = act.ToByteArray(),
            PreviousHash = previousHash,
            Hash = "",
        };
        return entry.WithHash();
    }

    private static async Task<EntryRow?> Find(RecordsContext context, Asked asked, CancellationToken cancellation)
    {
        var found = await context.Entries.AsNoTracking().SingleOrDefaultAsync(row => row.IdempotencyKey == asked.IdempotencyKey, cancellation).ConfigureAwait(false);
        return found is null || found.RequestDigest == asked.RequestDigest
            ? found
            : throw new RefusedException(Refused.KeyUsed, "KEY_USED_FOR_ANOTHER_REQUEST",
                $"the key `{asked.IdempotencyKey}` was used for another request, which is entry {found.Sequence}; nothing was done; take a new key for a new request");
    }

    private static Task<List<EntryRow>> History(RecordsContext context, string reviewId, CancellationToken cancellation) =>
        context.Entries.AsNoTracking().Where(row => row.ReviewId == reviewId).OrderBy(row => row.Sequence).ToListAsync(cancellation);

    private static DbContextOptions<SqliteContext> Sqlite(string file, SqliteOpenMode mode, SqliteBegin begin, bool pooled)
    {
        var connection = new SqliteConnectionStringBuilder { DataSource = file, Mode = mode, DefaultTimeout = 10, Pooling = pooled };
        return new DbContextOptionsBuilder<SqliteContext>().UseSqlite(connection.ToString()).AddInterceptors(begin).Options;
    }

    private static async Task<T> Guarded<T>(Func<Task<T>> work)
    {
        try
        {
            return await work().ConfigureAwait(false);
        }
        catch (Exception error) when (error is not (StoreFaultException or RefusedException or OperationCanceledException) && StoreFaultException.Of(error) is { } fault)
        {
            throw fault;
        }
    }
}
