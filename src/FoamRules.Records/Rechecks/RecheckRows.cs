namespace FoamRules.Records.Rechecks;

/// <summary>One run through the archive with certain rule sets and a certain engine, as it lies in the store.</summary>
public sealed class RecheckRunRow
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>When it began, in microseconds since 1970-01-01 UTC.</summary>
    public long StartedMicroseconds { get; init; }

    /// <summary>SHA-256 over the digests of all rule sets, in hexadecimal.</summary>
    public required string Rules { get; init; }

    /// <summary>The engine's version.</summary>
    public required string Engine { get; init; }

    /// <summary>How many reviews there were when it began.</summary>
    public int Reviews { get; init; }
}

/// <summary>A part of a run: some reviews after each other, which one worker takes at a time.</summary>
public sealed class RecheckPartRow
{
    /// <summary>The run.</summary>
    public required string RunId { get; init; }

    /// <summary>The entry that began its first review.</summary>
    public long First { get; init; }

    /// <summary>The entry that began its last review.</summary>
    public long Last { get; init; }

    /// <summary>How many reviews it has.</summary>
    public int Reviews { get; init; }

    /// <summary>Who works on it, or did; empty: nobody yet.</summary>
    public string ClaimedBy { get; init; } = "";

    /// <summary>Until when it is left to them, in microseconds since 1970-01-01 UTC; then another may take it.</summary>
    public long ClaimedUntil { get; init; }

    /// <summary>What came out, as JSON; null while it is not done.</summary>
    public string? Result { get; init; }
}
