using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace FoamRules.Service;

/// <summary>Ready when the rules compile: a service that cannot judge must not be sent plans.</summary>
/// <remarks>A newer folder that was refused does not make it unready: it goes on with the last good rule sets, and says so.</remarks>
/// <param name="engines">The engine in use.</param>
public sealed class RulesReady(EngineSource engines) : IHealthCheck
{
    /// <inheritdoc/>
    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        try
        {
            var state = engines.State;
            state.Engine.WarmUp();
            return Task.FromResult(state.Refused is { } refused
                ? HealthCheckResult.Degraded($"the rule sets' folder was refused at {refused.At:O}: {refused.Violations.Count} violations; {refused.Violations[0]}")
                : HealthCheckResult.Healthy());
        }
        catch (Rules.Judging.RuleSetMismatchException error)
        {
            return Task.FromResult(HealthCheckResult.Unhealthy(error.Message));
        }
    }
}
