namespace FoamRules.Records.Store;

/// <summary>One entry of the log as it lies in the store. Nothing ever updates or deletes one.</summary>
public sealed class EntryRow
{
    /// <summary>Its number, from 1 without gaps.</summary>
    public long Sequence { get; init; }

    /// <summary>When, in microseconds since 1970-01-01 UTC: the finest that both stores keep.</summary>
    public long AtMicroseconds { get; init; }

    /// <summary>Who.</summary>
    public required string Actor { get; init; }

    /// <summary>In which capacity: the number of the contract's role.</summary>
    public int Role { get; init; }

    /// <summary>How sure it is who it was: the number of the contract's identity.</summary>
    public int Identity { get; init; }

    /// <summary>What was done: the number of the contract's kind.</summary>
    public int Kind { get; init; }

    /// <summary>The review's id.</summary>
    public required string ReviewId { get; init; }

    /// <summary>The caller's key; no two entries have the same.</summary>
    public required string IdempotencyKey { get; init; }

    /// <summary>SHA-256 of the request, in hexadecimal.</summary>
    public required string RequestDigest { get; init; }

    /// <summary>The act, as the contract's message in bytes.</summary>
    public required byte[] Act { get; init; }

    /// <summary>The hash of the entry before, in hexadecimal.</summary>
    public required string PreviousHash { get; init; }

    /// <summary>The hash of this entry, in hexadecimal.</summary>
    public required string Hash { get; init; }

    /// <summary>The same entry with its hash.</summary>
    internal EntryRow WithHash() => new()
    {
        Sequence = Sequence,
        AtMicroseconds = AtMicroseconds,
        Actor = Actor,
        Role = Role,
        Identity = Identity,
        Kind = Kind,
        ReviewId = ReviewId,
        IdempotencyKey = IdempotencyKey,
        RequestDigest = RequestDigest,
        Act = Act,
        PreviousHash = PreviousHash,
        Hash = Log.EntryHash.Of(this),
    };
}

/// <summary>What can be listed and searched of a review. It follows from the log, and is written in the same transaction.</summary>
public sealed class ReviewRow
{
    /// <summary>The review's id.</summary>
    public required string Id { get; init; }

    /// <summary>The entry that began it; lists are in this order.</summary>
    public long FirstSequence { get; init; }

    /// <summary>Its last entry.</summary>
    public long Version { get; set; }

    /// <summary>The summary as the contract's message in bytes, but for the open holds, which change as time goes by.</summary>
    public byte[] Summary { get; set; } = [];

    /// <summary>What text is searched in, in small letters.</summary>
    public string SearchText { get; set; } = "";

    /// <summary>The day of the work; null where it is not given.</summary>
    public DateOnly? WorkDate { get; set; }

    /// <summary>The disposition of the last report: the number of the contract's.</summary>
    public int Disposition { get; set; }

    /// <summary>The findings of the last report.</summary>
    public List<FindingRow> Findings { get; init; } = [];
}

/// <summary>A finding of a review's last report, for searching.</summary>
public sealed class FindingRow
{
    /// <summary>The review's id.</summary>
    public required string ReviewId { get; init; }

    /// <summary>Its place in the report, from 0.</summary>
    public int Place { get; init; }

    /// <summary>The requirement's id.</summary>
    public required string Requirement { get; init; }

    /// <summary>The number of the contract's severity.</summary>
    public int Severity { get; init; }

    /// <summary>Until when a release of it stands, in microseconds since 1970-01-01 UTC; 0: it is not released.</summary>
    public long ReleasedUntil { get; init; }
}

/// <summary>The files of a rule set that some report was made with.</summary>
public sealed class RuleSetRow
{
    /// <summary>SHA-256 of the files, in hexadecimal.</summary>
    public required string Digest { get; init; }

    /// <summary>The rule set's id.</summary>
    public required string Id { get; init; }

    /// <summary>The files, as the contract's message in bytes.</summary>
    public required byte[] Text { get; init; }
}
