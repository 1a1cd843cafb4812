namespace FoamRules.Access;

/// <summary>The longest time that a call may take, counted from its making.</summary>
/// <remarks>A deadline in the call's headers would do, but its end resets the stream and the status is lost on the way as often as not.</remarks>
public sealed class LongestTime : IDisposable
{
    private readonly CancellationTokenSource _over;
    private readonly CancellationTokenSource _overOrAborted;

    /// <summary>Begins to count.</summary>
    /// <param name="limit">The longest time.</param>
    /// <param name="aborted">Cancelled when the caller leaves.</param>
    public LongestTime(TimeSpan limit, CancellationToken aborted)
    {
        Limit = limit;
        _over = new CancellationTokenSource(limit);
        _overOrAborted = CancellationTokenSource.CreateLinkedTokenSource(_over.Token, aborted);
        OverOrAborted = _overOrAborted.Token;
    }

    /// <summary>The longest time.</summary>
    public TimeSpan Limit { get; }

    /// <summary>True when it is over.</summary>
    public bool IsOver => _over.IsCancellationRequested;

    /// <summary>Cancelled when the time is over or the caller leaves.</summary>
    public CancellationToken OverOrAborted { get; }

    /// <inheritdoc/>
    public void Dispose()
    {
        _overOrAborted.Dispose();
        _over.Dispose();
    }
}
