using System.Threading.RateLimiting;
using Google.Rpc;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.RateLimiting;

namespace FoamRules.Access;

/// <summary>How much one caller may ask: calls a minute, calls at once. More is refused with when to ask again.</summary>
internal static class Limiting
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(1);

    /// <summary>Sets the limits.</summary>
    public static void Set(RateLimiterOptions options, CallerLimits limits)
    {
        var limiters = new List<PartitionedRateLimiter<HttpContext>>();
        if (limits.CallsPerMinute > 0)
        {
            limiters.Add(PartitionedRateLimiter.Create<HttpContext, string>(context => Gate.IsHealth(context.Request.Path)
                ? RateLimitPartition.GetNoLimiter("health")
                : RateLimitPartition.GetTokenBucketLimiter(CallerKey(context), _ => new TokenBucketRateLimiterOptions
                {
                    TokenLimit = limits.Burst,
                    TokensPerPeriod = 1,
                    ReplenishmentPeriod = TimeSpan.FromMinutes(1) / limits.CallsPerMinute,
                    QueueLimit = 0,
                })));
        }

        limiters.Add(PartitionedRateLimiter.Create<HttpContext, string>(context => Gate.IsHealth(context.Request.Path)
            ? RateLimitPartition.GetNoLimiter("health")
            : RateLimitPartition.GetConcurrencyLimiter(CallerKey(context), _ => new ConcurrencyLimiterOptions { PermitLimit = limits.CallsAtOnce, QueueLimit = limits.Waiting })));
        options.GlobalLimiter = PartitionedRateLimiter.CreateChained([.. limiters]);
        options.OnRejected = (rejected, _) =>
        {
            var again = rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after) && after > Soon ? after : Soon;
            return new ValueTask(Refusal.Write(rejected.HttpContext, Code.ResourceExhausted, "TOO_MANY_CALLS", "too many calls of this caller; nothing was done; ask again later", again));
        };
    }

    // A name that is only stated could be another one at each call; where nobody proves a name, the address counts.
    private static string CallerKey(HttpContext context) =>
        context.Features.Get<ProvenIdentity>() is { } proven ? $"{proven.How} {proven.Name}" : $"address {context.Connection.RemoteIpAddress}";
}
