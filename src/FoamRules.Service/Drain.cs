using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace FoamRules.Service;

/// <summary>
/// Ends the service without a broken call. Once it is told to stop it is not ready any more and refuses new work with
/// UNAVAILABLE, so that a balancer and a caller's retries go elsewhere; what it has begun it finishes; then the ports close.
/// </summary>
/// <param name="lasts">How long it refuses before the ports close, for a balancer to notice.</param>
/// <param name="clock">The clock by which that time runs.</param>
public sealed class Drain(TimeSpan lasts, TimeProvider clock) : IHostedLifecycleService, IHealthCheck, IDisposable
{
    private readonly CancellationTokenSource _begun = new();

    /// <summary>True from the moment that the service is told to stop.</summary>
    public bool Draining => _begun.IsCancellationRequested;

    /// <summary>Cancelled when the service is told to stop.</summary>
    public CancellationToken Begun => _begun.Token;

    /// <inheritdoc/>
    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default) =>
        Task.FromResult(Draining ? HealthCheckResult.Unhealthy("the service is ending") : HealthCheckResult.Healthy());

    /// <inheritdoc/>
    public async Task StoppingAsync(CancellationToken cancellationToken)
    {
        await _begun.CancelAsync().ConfigureAwait(false);
        try
        {
            await Task.Delay(lasts, clock, cancellationToken).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            // Whoever stops the service waits no longer; the ports close now.
        }
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
}
