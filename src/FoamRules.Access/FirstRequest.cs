using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace FoamRules.Access;

/// <summary>
/// Ends a connection that brings no request in time: one that says nothing, stops within its first words, or only keeps itself alive.
/// The server's own limit for these is that of a connection between two requests, which is long, and begins again with every ping.
/// </summary>
internal sealed class FirstRequest : IDisposable
{
    private readonly Timer _over;

    private FirstRequest(ConnectionContext connection, TimeSpan limit) =>
        _over = new Timer(_ => connection.Abort(new ConnectionAbortedException("no request came in time")), null, limit, Timeout.InfiniteTimeSpan);

    /// <summary>Sets the limit for all connections of a port, their handshake included.</summary>
    public static void Within(TimeSpan limit, ListenOptions listen) => listen.Use(next => async connection =>
    {
        using var first = new FirstRequest(connection, limit);
        connection.Features.Set(first);
        await next(connection).ConfigureAwait(false);
    });

    /// <summary>A request has come: the connection may stay.</summary>
    public static void Came(HttpContext context) => context.Features.Get<FirstRequest>()?._over.Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);

    /// <inheritdoc/>
    public void Dispose() => _over.Dispose();
}
