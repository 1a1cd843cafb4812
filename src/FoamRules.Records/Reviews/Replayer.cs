using System.Runtime.CompilerServices;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Records.Store;
using FoamRules.Rules.Catalogue;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using Google.Protobuf;
using Microsoft.EntityFrameworkCore;

namespace FoamRules.Records.Reviews;

/// <summary>
/// Makes stored reports again from what was stored with them, byte for byte, and says what today's rule sets would say instead.
/// </summary>
/// <param name="store">The record.</param>
/// <param name="today">The engine with today's rule sets.</param>
public sealed class Replayer(RecordStore store, CheckEngine today)
{
    // By the digests of all rule sets: reports that were made with the same ones need one engine.
    private readonly Dictionary<string, (CheckEngine? Engine, string WhyNot)> _engines = new(StringComparer.Ordinal);

    /// <summary>Replays every report, or those of one review, in the order of the log.</summary>
    /// <param name="reviewId">The review; null: all.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    public async IAsyncEnumerable<ReplayReviewsResponse> Replay(string? reviewId, [EnumeratorCancellation] CancellationToken cancellation = default)
    {
        await foreach (var entry in store.Entries(0, reviewId, cancellation).ConfigureAwait(false))
        {
            if (ReviewState.JudgedIn(ReviewState.ActOf(entry)) is { } judged)
            {
                yield return await Replay(ReviewState.ReceiptOf(entry), judged, cancellation).ConfigureAwait(false);
            }
        }
    }

    private async Task<ReplayReviewsResponse> Replay(Receipt receipt, Judged judged, CancellationToken cancellation)
    {
        var stored = Report.Parser.ParseFrom(judged.Report);
        var response = new ReplayReviewsResponse { Receipt = receipt, Disposition = stored.Disposition };
        var (engine, whyNot) = await EngineOf(judged, cancellation).ConfigureAwait(false);
        var again = engine is null ? null : Judge(engine, judged, out whyNot, cancellation);
        response.EngineThen = stored.EngineVersion;
        response.EngineNow = again?.EngineVersion ?? "";
        // The version of the engine stands in the report; another engine that finds the same has made the same report.
        response.Same = again is not null && ReportMapper.ToMessage(again with { EngineVersion = stored.EngineVersion }).ToByteString() == judged.Report;
        response.WhyNot = response.Same ? "" : again is null ? whyNot : Different(stored, again);

        response.RuleSetsChanged.AddRange(Changed(judged));
        var now = response.RuleSetsChanged.Count == 0 ? again : Judge(today, judged, out whyNot, cancellation);
        if (now is null)
        {
            response.RuleSetsChanged.Add($"today's rule sets cannot judge it: {whyNot}");
            return response;
        }

        response.DispositionToday = (Disposition)now.Disposition;
        response.Today.AddRange(FindingComparison.Of(again ?? ReportMapper.ToReport(stored), now).Select(ReportMapper.MessageOf<Contracts.V1.FindingChange>));
        return response;
    }

    private static Model.Report? Judge(CheckEngine engine, Judged judged, out string whyNot, CancellationToken cancellation)
    {
        // The plan holds its own time and stage; nothing is written in.
        var read = PlanReader.ReadMessage(Plan.Parser.ParseFrom(judged.Plan), new ReadOptions(default));
        var units = judged.Units == DisplayUnits.Unspecified ? (Model.DisplayUnits?)null : (Model.DisplayUnits)judged.Units;
        var result = read.Plan is null ? new CheckResult(null, read.Violations) : engine.Check(read.Plan, new CheckOptions(read.Digest, Units: units, Purpose: CheckPurpose.Replay), cancellation);
        whyNot = string.Join("; ", result.Violations);
        return result.Report;
    }

    private static string Different(Report stored, Model.Report again) => stored.EngineVersion != again.EngineVersion
        ? $"the report comes out otherwise than it is stored; engine {stored.EngineVersion} made it, engine {again.EngineVersion} replays it"
        : $"the report comes out otherwise than it is stored, by the same engine {stored.EngineVersion}";

    private IEnumerable<string> Changed(Judged judged)
    {
        var then = judged.Library.ToDictionary(set => set.Id, set => set.Digest);
        foreach (var id in then.Keys.Union(today.Library.RuleSets.Keys).Order(StringComparer.Ordinal))
        {
            var now = today.Library.RuleSets.GetValueOrDefault(id)?.Digest;
            if (!then.TryGetValue(id, out var digest))
            {
                yield return $"{id} is new";
            }
            else if (now is null)
            {
                yield return $"{id} is gone";
            }
            else if (now != digest)
            {
                yield return $"{id} is another: {digest[..12]} then, {now[..12]} today";
            }
        }
    }

    private async Task<(CheckEngine? Engine, string WhyNot)> EngineOf(Judged judged, CancellationToken cancellation)
    {
        var digests = judged.Library.Select(set => set.Digest).Order(StringComparer.Ordinal).ToList();
        var key = string.Join(' ', digests);
        if (!_engines.TryGetValue(key, out var known))
        {
            var rows = await store.Read(context => context.RuleSets.AsNoTracking().Where(row => digests.Contains(row.Digest)).ToListAsync(cancellation)).ConfigureAwait(false);
            _engines[key] = known = Load(rows, digests);
        }

        return known;
    }

    private static (CheckEngine?, string) Load(List<RuleSetRow> rows, List<string> digests)
    {
        var sets = rows.Select(StoredRuleSet.Files).ToList();
        if (digests.Except(sets.Select(set => set.Digest)).FirstOrDefault() is { } missing)
        {
            return (null, $"the rule set {missing[..12]} is not among those that are kept");
        }

        return RuleLibrary.Load(sets, out var violations) is { } library
            ? (new CheckEngine(library), "")
            : (null, $"this engine cannot read the rule sets of then: {violations[0]}");
    }
}
