using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Tests;

/// <summary>Addresses at which the service fails, each in its own way, for what a person is then shown.</summary>
internal static class Failing
{
    /// <summary>What stands in what is thrown, and must never be shown.</summary>
    public const string Inside = "the table is gone";

    /// <summary>Maps them.</summary>
    public static void Map(WebApplication service)
    {
        service.Map("/failing/throws", Task (HttpContext _) => throw new InvalidOperationException(Inside));
        service.Map("/reviews/failing/throws", Task (HttpContext _) => throw new InvalidOperationException(Inside));
        service.Map("/failing/begun", async http =>
        {
            http.Response.Headers.ContentType = "application/json";
            http.Response.Headers["x-half"] = Inside;
            await Task.Yield();
            throw new InvalidOperationException(Inside);
        });
        service.Map("/failing/too-long", http => Task.Delay(Timeout.Infinite, http.RequestAborted)).WithRequestTimeout(TimeSpan.FromMilliseconds(20));
        service.Map("/failing/unavailable", http =>
        {
            http.Response.StatusCode = StatusCodes.Status503ServiceUnavailable;
            return Task.CompletedTask;
        });
    }
}
