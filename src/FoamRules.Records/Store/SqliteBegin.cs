using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace FoamRules.Records.Store;

/// <summary>How every SQLite connection begins: what is committed is on the disk before it is acknowledged.</summary>
/// <param name="more">Further pragmas.</param>
internal sealed class SqliteBegin(IReadOnlyList<string> more) : DbConnectionInterceptor
{
    private readonly string _sql = string.Concat(new[] { "synchronous = FULL", "foreign_keys = ON" }.Concat(more).Select(pragma => $"PRAGMA {pragma};"));

    /// <inheritdoc/>
    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData) => Begin(connection);

    /// <inheritdoc/>
    public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        Begin(connection);
        return Task.CompletedTask;
    }

    private void Begin(DbConnection connection)
    {
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Constant pragmas, not from outside.
        command.CommandText = _sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
