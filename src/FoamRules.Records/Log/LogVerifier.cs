using System.Security.Cryptography;
using FoamRules.Contracts.V1;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using Google.Protobuf;
using Microsoft.EntityFrameworkCore;

namespace FoamRules.Records.Log;

/// <summary>
/// Reads the whole log and says what is wrong with it: an entry that was changed, taken out or moved; a plan or a rule set that is
/// not the one that the report names; a list that does not follow from the log.
/// </summary>
/// <param name="store">The record.</param>
public sealed class LogVerifier(RecordStore store)
{
    /// <summary>Verifies.</summary>
    /// <param name="known">Entries whose hashes were kept elsewhere.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    public async Task<VerifyLogResponse> Verify(IReadOnlyCollection<KnownEntry> known, CancellationToken cancellation = default)
    {
        var response = new VerifyLogResponse();
        var expected = known.ToLookup(entry => entry.Sequence, entry => entry.Hash);
        var ruleSets = new HashSet<string>(StringComparer.Ordinal);
        var reviews = new Dictionary<string, long>(StringComparer.Ordinal);
        var (sequence, hash) = (0L, EntryHash.BeforeTheFirst);
        await foreach (var entry in store.Entries(0, null, cancellation).ConfigureAwait(false))
        {
            foreach (var problem in Problems(entry, sequence, hash, ruleSets).Concat(expected[entry.Sequence].Where(kept => kept != entry.Hash)
                .Select(kept => $"its hash is {entry.Hash[..12]}…, not {kept[..Math.Min(12, kept.Length)]}… as kept elsewhere")))
            {
                response.Problems.Add(new LogProblem { Sequence = entry.Sequence, What = problem });
            }

            (sequence, hash) = (entry.Sequence, entry.Hash);
            reviews[entry.ReviewId] = entry.Sequence;
            response.Entries++;
        }

        response.Last = new KnownEntry { Sequence = sequence, Hash = hash };
        response.Problems.AddRange(known.Where(entry => entry.Sequence > sequence)
            .Select(entry => new LogProblem { Sequence = entry.Sequence, What = "it was there when its hash was kept, and is missing" }));
        await VerifyLists(response, reviews, cancellation).ConfigureAwait(false);
        await VerifyRuleSets(response, ruleSets, cancellation).ConfigureAwait(false);
        return response;
    }

    private static IEnumerable<string> Problems(EntryRow entry, long before, string hashBefore, HashSet<string> ruleSets)
    {
        if (entry.Sequence != before + 1)
        {
            yield return before + 1 == entry.Sequence - 1 ? $"entry {before + 1} before it is missing" : $"entries {before + 1} to {entry.Sequence - 1} before it are missing";
        }

        if (EntryHash.Of(entry) != entry.Hash)
        {
            yield return "it was changed: its hash is not that of what it says";
        }

        if (entry.PreviousHash != hashBefore)
        {
            yield return "it does not follow the entry before it: one of the two was changed, taken out or moved";
        }

        if (InAct(entry, ruleSets) is { } problem)
        {
            yield return problem;
        }
    }

    private static string? InAct(EntryRow entry, HashSet<string> ruleSets)
    {
        try
        {
            if (ReviewState.JudgedIn(Act.Parser.ParseFrom(entry.Act)) is not { } judged)
            {
                return null;
            }

            ruleSets.UnionWith(judged.Library.Select(set => set.Digest));
            var digest = Convert.ToHexStringLower(SHA256.HashData(judged.Plan.Span));
            return Report.Parser.ParseFrom(judged.Report).PlanDigest == digest ? null : "the report in it is on another plan than the one in it";
        }
        catch (InvalidProtocolBufferException)
        {
            return "its act cannot be read";
        }
    }

    private Task<bool> VerifyLists(VerifyLogResponse response, Dictionary<string, long> reviews, CancellationToken cancellation) => store.Read(async context =>
    {
        var rows = await context.Reviews.AsNoTracking().Include(row => row.Findings).ToDictionaryAsync(row => row.Id, cancellation).ConfigureAwait(false);
        foreach (var (id, last) in reviews)
        {
            if (!rows.TryGetValue(id, out var row))
            {
                response.Problems.Add(new LogProblem { Sequence = last, What = $"the review {id} is not in the list" });
            }
            else if (row.Version > last)
            {
                response.Problems.Add(new LogProblem { Sequence = row.Version, What = $"it was an act on the review {id}, and is missing" });
            }
            else if (!await Follows(row, cancellation).ConfigureAwait(false))
            {
                response.Problems.Add(new LogProblem { Sequence = last, What = $"what is listed of the review {id} does not follow from the log" });
            }
        }

        response.Problems.AddRange(rows.Values.Where(row => !reviews.ContainsKey(row.Id))
            .Select(row => new LogProblem { Sequence = row.FirstSequence, What = $"it began the review {row.Id}, and is missing" }));
        return true;
    });

    private async Task<bool> Follows(ReviewRow row, CancellationToken cancellation)
    {
        try
        {
            var made = Projection.Of(ReviewState.Of(await store.EntriesOf(row.Id, cancellation).ConfigureAwait(false)));
            return made.Version == row.Version && made.Summary.AsSpan().SequenceEqual(row.Summary) && made.SearchText == row.SearchText
                && made.WorkDate == row.WorkDate && made.Disposition == row.Disposition
                && made.Findings.Select(Line).SequenceEqual(row.Findings.OrderBy(finding => finding.Place).Select(Line));
        }
        catch (StoreFaultException error) when (error.Kind == StoreFaultKind.Damaged)
        {
            return false;
        }

        static (int, string, int, long) Line(FindingRow finding) => (finding.Place, finding.Requirement, finding.Severity, finding.ReleasedUntil);
    }

    private Task<bool> VerifyRuleSets(VerifyLogResponse response, HashSet<string> wanted, CancellationToken cancellation) => store.Read(async context =>
    {
        var kept = await context.RuleSets.AsNoTracking().ToDictionaryAsync(row => row.Digest, cancellation).ConfigureAwait(false);
        response.Problems.AddRange(wanted.Where(digest => !kept.ContainsKey(digest)).Select(digest => new LogProblem { What = $"the rule set {digest[..12]}… is not kept" }));
        response.Problems.AddRange(kept.Values.Where(row => !IsWhole(row)).Select(row => new LogProblem { What = $"the files of the rule set {row.Id} ({row.Digest[..12]}…) were changed" }));
        return true;
    });

    private static bool IsWhole(RuleSetRow row)
    {
        try
        {
            return StoredRuleSet.Files(row).Digest == row.Digest;
        }
        catch (InvalidProtocolBufferException)
        {
            return false;
        }
    }
}
