using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using System.Text;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using FoamRules.Rules.Catalogue;
using FoamRules.Rules.Engine;
using Microsoft.EntityFrameworkCore;
using ActCase = FoamRules.Contracts.V1.Act.ActOneofCase;

namespace FoamRules.Records.Rechecks;

/// <summary>
/// Checks the newest plan of every review again with today's rule sets. A run is cut into parts; any number of workers, in one
/// process or on many machines, each claim a part, check it and store what came out, until none is left. A worker that dies leaves
/// its part to another once its claim has run out; a run that was broken off goes on where it was.
/// </summary>
/// <remarks>The log is not touched: a recheck decides nothing, it tells whom to ask.</remarks>
/// <param name="store">The record.</param>
/// <param name="today">The engine with today's rule sets.</param>
/// <param name="clock">The clock by which claims run out.</param>
/// <param name="reviewsInAPart">How many reviews a worker claims at a time.</param>
public sealed class Recheck(RecordStore store, CheckEngine today, TimeProvider clock, int reviewsInAPart = 25)
{
    // Far longer than a part takes. Should one take longer all the same, it is checked twice and comes out the same.
    private static readonly TimeSpan s_claim = TimeSpan.FromMinutes(2);

    private readonly string _rules = Digest(today);

    /// <summary>The run with today's rule sets and this engine that is not done yet; where there is none, a new one.</summary>
    public Task<RecheckRunRow> Begin(CancellationToken cancellation = default) => store.Write(async context =>
    {
        var engine = CheckEngine.Version;
        var open = await context.RecheckRuns.AsNoTracking()
            .Where(run => run.Rules == _rules && run.Engine == engine && context.RecheckParts.Any(part => part.RunId == run.Id && part.Result == null))
            .OrderByDescending(run => run.StartedMicroseconds).FirstOrDefaultAsync(cancellation).ConfigureAwait(false);
        if (open is not null)
        {
            return open;
        }

        var run = new RecheckRunRow
        {
            Id = Guid.CreateVersion7().ToString("N"),
            StartedMicroseconds = Times.Microseconds(clock.GetUtcNow()),
            Rules = _rules,
            Engine = engine,
            Reviews = await context.Reviews.CountAsync(cancellation).ConfigureAwait(false),
        };
        context.RecheckRuns.Add(run);
        await context.SaveChangesAsync(cancellation).ConfigureAwait(false);
        // In the database, in one statement: meanwhile nobody else can write.
        await context.Database.ExecuteSqlAsync($"""
            INSERT INTO recheck_parts (run_id, first, last, reviews, claimed_by, claimed_until)
            SELECT {run.Id}, MIN(first_sequence), MAX(first_sequence), COUNT(*), '', 0
            FROM (SELECT first_sequence, (ROW_NUMBER() OVER (ORDER BY first_sequence) - 1) / {reviewsInAPart} AS part FROM reviews) AS numbered
            GROUP BY part
            """, cancellation).ConfigureAwait(false);
        return run;
    }, cancellation);

    /// <summary>Claims and checks parts until none is left that is not done.</summary>
    /// <param name="run">The run.</param>
    /// <param name="worker">A name for this worker that no other has.</param>
    /// <param name="advanced">Told how many reviews were checked, after each part.</param>
    /// <param name="cancellation">Gives up where the caller does; the part in hand is left to others.</param>
    /// <exception cref="StoreFaultException">The store does not answer or cannot be written.</exception>
    public async Task Work(RecheckRunRow run, string worker, Action<int> advanced, CancellationToken cancellation = default)
    {
        while (true)
        {
            if (await Claim(run, worker, cancellation).ConfigureAwait(false) is { } part)
            {
                var result = await Check(part, cancellation).ConfigureAwait(false);
                await Finish(part, result, cancellation).ConfigureAwait(false);
                advanced(result.Reviews);
            }
            else if (await store.Read(context => context.RecheckParts.AnyAsync(open => open.RunId == run.Id && open.Result == null, cancellation)).ConfigureAwait(false))
            {
                // All that is left is in others' hands; should one of them die, its claim runs out.
                await Task.Delay(TimeSpan.FromSeconds(1), clock, cancellation).ConfigureAwait(false);
            }
            else
            {
                return;
            }
        }
    }

    /// <summary>How many reviews of the run are checked, whoever checked them.</summary>
    public Task<int> Checked(RecheckRunRow run, CancellationToken cancellation = default) =>
        store.Read(context => context.RecheckParts.Where(part => part.RunId == run.Id && part.Result != null).SumAsync(part => part.Reviews, cancellation));

    /// <summary>What the run has brought so far.</summary>
    public Task<RecheckSummary> Summary(RecheckRunRow run, CancellationToken cancellation = default) => RecheckSummary.Of(run, Results(run, cancellation));

    /// <summary>The reviews that came out otherwise, the eldest first.</summary>
    public async IAsyncEnumerable<RecheckedReview> Changed(RecheckRunRow run, [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        await foreach (var part in Results(run, cancellation).ConfigureAwait(false))
        {
            foreach (var review in part.Changed)
            {
                yield return review;
            }
        }
    }

    private static string Digest(CheckEngine engine) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(
        string.Join('\n', engine.Library.RuleSets.Values.Select(set => set.Digest).Order(StringComparer.Ordinal)))));

    private async Task<RecheckPartRow?> Claim(RecheckRunRow run, string worker, CancellationToken cancellation)
    {
        var now = Times.Microseconds(clock.GetUtcNow());
        var until = Times.Microseconds(clock.GetUtcNow() + s_claim);
        // A claim that runs for longer than any is from before the clock was set back. Clocks of two machines may differ by the length of one.
        var beyond = Times.Microseconds(clock.GetUtcNow() + (2 * s_claim));
        return await store.Read(async context => (await context.ClaimPart(run.Id, worker, now, until, beyond, cancellation).ConfigureAwait(false)).SingleOrDefault()).ConfigureAwait(false);
    }

    private Task<int> Finish(RecheckPartRow part, RecheckResult result, CancellationToken cancellation) => store.Write(context =>
    {
        var json = result.ToJson();
        return context.RecheckParts.Where(row => row.RunId == part.RunId && row.First == part.First)
            .ExecuteUpdateAsync(update => update.SetProperty(row => row.Result, json), cancellation);
    }, cancellation);

    private async Task<RecheckResult> Check(RecheckPartRow part, CancellationToken cancellation)
    {
        int[] kinds = [(int)ActCase.Submitted, (int)ActCase.Revised];
        var rows = await store.Read(context => context.Entries.AsNoTracking()
            .Where(entry => kinds.Contains(entry.Kind) && context.Reviews.Any(review => review.Id == entry.ReviewId && review.FirstSequence >= part.First && review.FirstSequence <= part.Last))
            .OrderBy(entry => entry.Sequence).ToListAsync(cancellation)).ConfigureAwait(false);
        var changed = from row in rows
                      group row by row.ReviewId into revisions
                      let review = Check(revisions.Key, ReviewState.JudgedIn(ReviewState.ActOf(revisions.Last()))!, cancellation)
                      where review is not null
                      select review;
        return new RecheckResult(part.Reviews, [.. changed]);
    }

    /// <summary>The review, where it comes out otherwise; null where nothing differs.</summary>
    private RecheckedReview? Check(string id, Judged judged, CancellationToken cancellation)
    {
        var stored = Report.Parser.ParseFrom(judged.Report);
        var was = (Model.Disposition)stored.Disposition;
        // The plan holds its own time and stage: it is judged as of the day on which it was reviewed.
        var read = PlanReader.ReadMessage(Plan.Parser.ParseFrom(judged.Plan), new ReadOptions(default));
        var units = judged.Units == DisplayUnits.Unspecified ? (Model.DisplayUnits?)null : (Model.DisplayUnits)judged.Units;
        var result = read.Plan is null ? new CheckResult(null, read.Violations) : today.Check(read.Plan, new CheckOptions(read.Digest, Units: units, Purpose: CheckPurpose.Replay), cancellation);
        if (result.Report is not { } now)
        {
            return new RecheckedReview(id, was, null, string.Join("; ", result.Violations), []);
        }

        // A message holds a quantity in one unit: both must have been in one, or the last digit of a conversion looks like a difference.
        var changes = FindingComparison.Of(
            stored.Findings.Select(ReportMapper.FindingOf),
            now.Findings.Select(finding => ReportMapper.FindingOf(ReportMapper.MessageOf<Finding>(finding))));
        return changes.IsEmpty && was == now.Disposition ? null
            : new RecheckedReview(id, was, now.Disposition, "",
                [.. changes.Select(change => new RecheckedFinding(change.Requirement, change.Subject.Id, change.Kind, change.Before?.Severity, change.After?.Severity))]);
    }

    private async IAsyncEnumerable<RecheckResult> Results(RecheckRunRow run, [EnumeratorCancellation] CancellationToken cancellation)
    {
        var after = -1L;
        while (true)
        {
            var from = after;
            var rows = await store.Read(context => context.RecheckParts.AsNoTracking().Where(part => part.RunId == run.Id && part.First > from)
                .OrderBy(part => part.First).Take(100).ToListAsync(cancellation)).ConfigureAwait(false);
            foreach (var row in rows.Where(row => row.Result is not null))
            {
                yield return RecheckResult.FromJson(row.Result!);
            }

            if (rows.Count < 100)
            {
                yield break;
            }

            after = rows[^1].First;
        }
    }
}
