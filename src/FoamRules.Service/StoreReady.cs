using FoamRules.Records.Store;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace FoamRules.Service;

/// <summary>Ready when the store answers and its tables are up to date: a service that cannot put on record must not be sent reviews.</summary>
/// <param name="store">The record.</param>
public sealed class StoreReady(RecordStore store) : IHealthCheck
{
    // Whoever probes does not wait long, and a database that hangs is not ready.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);

    /// <inheritdoc/>
    public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        patience.CancelAfter(Patience);
        try
        {
            return await store.WhyNotReady(patience.Token).ConfigureAwait(false) is { } why ? HealthCheckResult.Unhealthy(why) : HealthCheckResult.Healthy();
        }
        catch (OperationCanceledException) when (!cancellationToken.IsCancellationRequested)
        {
            return HealthCheckResult.Unhealthy($"the store has not answered in {Patience.TotalSeconds:0} s");
        }
    }
}
