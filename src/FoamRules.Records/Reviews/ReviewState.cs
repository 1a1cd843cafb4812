using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using ActCase = FoamRules.Contracts.V1.Act.ActOneofCase;

namespace FoamRules.Records.Reviews;

/// <summary>A plan and the report on it, as an entry holds them.</summary>
/// <param name="Receipt">The entry.</param>
/// <param name="Plan">The plan as it was judged.</param>
/// <param name="Report">The report.</param>
public sealed record JudgedPlan(Receipt Receipt, Plan Plan, Report Report);

/// <summary>A revision of the plan.</summary>
/// <param name="Number">Its number, from 1.</param>
/// <param name="Judged">The plan and the report.</param>
public sealed record Revision(int Number, JudgedPlan Judged);

/// <summary>A signature on a revision.</summary>
/// <param name="Revision">The revision.</param>
/// <param name="Receipt">Who signed, when.</param>
public sealed record Signature(Revision Revision, Receipt Receipt);

/// <summary>What stands of a review: what its entries come to, read in their order. There is no other truth.</summary>
public sealed class ReviewState
{
    private readonly List<(Receipt Receipt, Act Act)> _acts = [];
    private readonly List<Revision> _revisions = [];
    private readonly List<HoldRelease> _releases = [];
    private readonly List<ReentryRelease> _reentries = [];
    private readonly List<JudgedPlan> _preStarts = [];

    private ReviewState()
    {
    }

    /// <summary>Every act, the first first.</summary>
    public IReadOnlyList<(Receipt Receipt, Act Act)> Acts => _acts;

    /// <summary>The revisions, the first first.</summary>
    public IReadOnlyList<Revision> Revisions => _revisions;

    /// <summary>Every release of a hold, whether or not it still stands.</summary>
    public IReadOnlyList<HoldRelease> Releases => _releases;

    /// <summary>Every release of an area for re-entry, the first first; each says whether it still stands.</summary>
    public IReadOnlyList<ReentryRelease> Reentries => _reentries;

    /// <summary>The pre-start checks, the first first.</summary>
    public IReadOnlyList<JudgedPlan> PreStarts => _preStarts;

    /// <summary>The last signature; null: nothing was signed off yet.</summary>
    public Signature? Signed { get; private set; }

    /// <summary>The foam as built; null: not on record yet.</summary>
    public JudgedPlan? AsBuilt { get; private set; }

    /// <summary>The plan and the report of the last act that has one; null: there is no such review.</summary>
    public JudgedPlan? Last { get; private set; }

    /// <summary>The number of the last entry; 0: there is no such review.</summary>
    public long Version => _acts.Count == 0 ? 0 : _acts[^1].Receipt.Sequence;

    /// <summary>What the entries of a review come to.</summary>
    /// <param name="entries">All of them, the first first.</param>
    /// <exception cref="StoreFaultException">An entry cannot be read.</exception>
    public static ReviewState Of(IReadOnlyList<EntryRow> entries)
    {
        var state = new ReviewState();
        foreach (var entry in entries)
        {
            try
            {
                state.Take(ReceiptOf(entry), Act.Parser.ParseFrom(entry.Act));
            }
            catch (InvalidProtocolBufferException error)
            {
                throw new StoreFaultException(StoreFaultKind.Damaged, $"entry {entry.Sequence} cannot be read: {error.Message}", error);
            }
        }

        return state;
    }

    /// <summary>That an entry is on record, and where.</summary>
    public static Receipt ReceiptOf(EntryRow entry) => new()
    {
        ReviewId = entry.ReviewId,
        Sequence = entry.Sequence,
        At = Timestamp.FromDateTimeOffset(Times.Of(entry.AtMicroseconds)),
        Actor = entry.Actor,
        Role = (Role)entry.Role,
        Identity = (Identity)entry.Identity,
        Kind = (ActKind)entry.Kind,
        Hash = entry.Hash,
    };

    /// <summary>What was done in an entry.</summary>
    /// <exception cref="StoreFaultException">The entry cannot be read.</exception>
    public static Act ActOf(EntryRow entry)
    {
        try
        {
            return Act.Parser.ParseFrom(entry.Act);
        }
        catch (InvalidProtocolBufferException error)
        {
            throw new StoreFaultException(StoreFaultKind.Damaged, $"entry {entry.Sequence} cannot be read: {error.Message}", error);
        }
    }

    /// <summary>The plan and the report in an act; null where it has none.</summary>
    public static Judged? JudgedIn(Act act) => act.ActCase switch
    {
        ActCase.Submitted => act.Submitted.Judged,
        ActCase.Revised => act.Revised.Judged,
        ActCase.PreStartChecked => act.PreStartChecked.Judged,
        ActCase.ClosedOut => act.ClosedOut.Judged,
        ActCase.ReentryReleased => act.ReentryReleased.Judged,
        _ => null,
    };

    /// <summary>
    /// The findings that stand: those of the last report and those of the newest revision, which a later pre-start check does not
    /// take back. The foam as built stands for itself.
    /// </summary>
    public IReadOnlyList<Finding> Standing() => Last is null ? []
        : AsBuilt is not null ? [.. AsBuilt.Report.Findings]
        : [.. Last.Report.Findings.Concat(_revisions[^1].Judged.Report.Findings).Distinct()];

    /// <summary>Holds among findings that nobody has released, or whose release has run out.</summary>
    /// <param name="findings">The findings.</param>
    /// <param name="at">When.</param>
    public IEnumerable<Finding> Open(IEnumerable<Finding> findings, DateTimeOffset at) =>
        findings.Where(finding => finding.Severity == Severity.HoldPoint && ReleaseOf(finding, at) is null);

    /// <summary>
    /// The release of a finding that stands at a time; null: none. A release is of one finding exactly as it was: where anything in
    /// it has changed, such as the value that was found, it has to be given again.
    /// </summary>
    public HoldRelease? ReleaseOf(Finding finding, DateTimeOffset at) =>
        _releases.LastOrDefault(release => release.Until.ToDateTimeOffset() > at && release.Finding.Equals(finding));

    private void Take(Receipt receipt, Act act)
    {
        if ((_acts.Count == 0) != (act.ActCase == ActCase.Submitted) || (act.ActCase == ActCase.SignedOff && act.SignedOff.Revision > _revisions.Count))
        {
            throw new StoreFaultException(StoreFaultKind.Damaged, $"entry {receipt.Sequence} does not follow from the entries before it: some are missing", null);
        }

        _acts.Add((receipt, act));
        // A release for re-entry is judged on the plan as it stands, and puts none in its place.
        if (act.ActCase != ActCase.ReentryReleased && JudgedIn(act) is { } judged)
        {
            Last = new JudgedPlan(receipt, Plan.Parser.ParseFrom(judged.Plan), Report.Parser.ParseFrom(judged.Report));
        }

        switch (act.ActCase)
        {
            case ActCase.Submitted:
                _revisions.Add(new Revision(1, Last!));
                break;
            case ActCase.Revised:
                _revisions.Add(new Revision(act.Revised.Revision, Last!));
                Overtake(receipt, _ => true);
                break;
            case ActCase.SignedOff:
                Signed = new Signature(_revisions[act.SignedOff.Revision - 1], receipt);
                break;
            case ActCase.HoldReleased:
                var release = act.HoldReleased.Clone();
                release.Receipt = receipt;
                _releases.Add(release);
                break;
            case ActCase.PreStartChecked:
                _preStarts.Add(Last!);
                Overtake(receipt, _ => true);
                break;
            case ActCase.ClosedOut:
                AsBuilt = Last;
                Overtake(receipt, release => Last!.Plan.Areas.Any(area => area.Id == release.Area && area.LastSprayAt?.ToDateTimeOffset() > release.LastSprayAt.ToDateTimeOffset()));
                break;
            case ActCase.ReentryReleased:
                var back = act.ReentryReleased.Release.Clone();
                back.Receipt = receipt;
                _reentries.Add(back);
                break;
        }
    }

    // Work that may have gone on starts the clock again.
    private void Overtake(Receipt by, Func<ReentryRelease, bool> which)
    {
        foreach (var release in _reentries.Where(release => release.OvertakenBy == 0 && which(release)))
        {
            release.OvertakenBy = by.Sequence;
        }
    }
}
