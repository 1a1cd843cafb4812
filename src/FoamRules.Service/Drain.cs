using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace FoamRules.Service;

/// <summary>
/// Ends the service without a broken call. Once it is told to stop it is not ready any more, and still takes work until a balancer
/// has noticed; then it refuses new work with UNAVAILABLE, so that a caller's retries go elsewhere; what it has begun it finishes;
/// then the ports close.
/// </summary>
/// <param name="notice">How long it takes work although it is not ready any more.</param>
/// <param name="lasts">How long it then refuses before the ports close.</param>
/// <param name="clock">The clock by which these times run.</param>
public sealed class Drain(TimeSpan notice, TimeSpan lasts, TimeProvider clock) : IHostedLifecycleService, IHealthCheck, IDisposable
{
    private readonly CancellationTokenSource _begun = new();

    private volatile bool _told;

    /// <summary>True where new work is refused.</summary>
    public bool Draining => _begun.IsCancellationRequested;

    /// <summary>Cancelled when new work begins to be refused.</summary>
    public CancellationToken Begun => _begun.Token;

    /// <inheritdoc/>
    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default) =>
        Task.FromResult(_told ? HealthCheckResult.Unhealthy("the service is ending") : HealthCheckResult.Healthy());

    /// <inheritdoc/>
    public async Task StoppingAsync(CancellationToken cancellationToken)
    {
        _told = true;
        await Wait(notice, cancellationToken).ConfigureAwait(false);
        await _begun.CancelAsync().ConfigureAwait(false);
        await Wait(lasts, cancellationToken).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StartedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public void Dispose() => _begun.Dispose();

    private async Task Wait(TimeSpan time, CancellationToken cancellation)
    {
        try
        {
            await Task.Delay(time, clock, cancellation).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            // Whoever stops the service waits no longer; the ports close now.
        }
    }
}
