using FoamRules.Rules.Engine;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace FoamRules.Service;

/// <summary>Ready when the rules compile: a service that cannot judge must not be sent plans.</summary>
/// <param name="engine">The engine.</param>
public sealed class RulesReady(CheckEngine engine) : IHealthCheck
{
    /// <inheritdoc/>
    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        try
        {
            engine.WarmUp();
            return Task.FromResult(HealthCheckResult.Healthy());
        }
        catch (Rules.Judging.RuleSetMismatchException error)
        {
            return Task.FromResult(HealthCheckResult.Unhealthy(error.Message));
        }
    }
}
