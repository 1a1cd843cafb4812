namespace FoamRules.Service;

/// <summary>
/// Judges as many plans at once as there are processors; the others wait for their turn, without a thread, and leave when their caller
/// does. Judged all at once, each would take as long as all of them, and none would be ready before its caller gives up.
/// </summary>
/// <remarks>A thread of its own for each: those that read and answer are few, and must not wait behind one that judges.</remarks>
public sealed class Turns : IDisposable
{
    private readonly SemaphoreSlim _free = new(Environment.ProcessorCount);

    /// <summary>Waits for a turn, and judges.</summary>
    /// <param name="judge">What is to be done.</param>
    /// <param name="cancellation">Cancelled when nobody waits for it any more.</param>
    public async Task<T> Take<T>(Func<T> judge, CancellationToken cancellation)
    {
        await _free.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            return await Task.Factory.StartNew(judge, cancellation, TaskCreationOptions.LongRunning, TaskScheduler.Default).ConfigureAwait(false);
        }
        finally
        {
            _free.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _free.Dispose();
}
