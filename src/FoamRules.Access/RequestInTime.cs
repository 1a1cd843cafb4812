using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace FoamRules.Access;

/// <summary>
/// Ends a connection that brings no request in time: one that says nothing, stops within its first words, or only keeps itself alive.
/// The server's own limit for these is that of a connection between two requests, which is long, and begins again with every ping.
/// Then one that brings no further request for longer than any call may last: it is idle, or its other end does not take an answer. The server's least rate for answers
/// ends most of the latter early, and now and then loses count: where the end of an answer is written while the client's window is full.
/// </summary>
internal sealed class RequestInTime : IDisposable
{
    private readonly Timer _over;
    private readonly TimeSpan _next;

    private RequestInTime(ConnectionContext connection, CallerLimits limits)
    {
        _next = limits.LongestStream + limits.LongestCall + limits.Standstill;
        _over = new Timer(_ => connection.Abort(new ConnectionAbortedException("no request came in time")), null, limits.Standstill, Timeout.InfiniteTimeSpan);
    }

    /// <summary>Sets the limits for all connections of a port, their handshake included.</summary>
    public static void Within(CallerLimits limits, ListenOptions listen) => listen.Use(next => async connection =>
    {
        using var inTime = new RequestInTime(connection, limits);
        connection.Features.Set(inTime);
        await next(connection).ConfigureAwait(false);
    });

    /// <summary>A request has come: the connection may stay as long as any call.</summary>
    public static void Came(HttpContext context)
    {
        var inTime = context.Features.Get<RequestInTime>();
        inTime?._over.Change(inTime._next, Timeout.InfiniteTimeSpan);
    }

    /// <inheritdoc/>
    public void Dispose() => _over.Dispose();
}
