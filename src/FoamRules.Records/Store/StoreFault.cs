using System.Data.Common;
using System.Net.Sockets;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using SQLitePCL;

namespace FoamRules.Records.Store;

/// <summary>What is the matter with the store.</summary>
public enum StoreFaultKind
{
    /// <summary>It does not answer, or cannot be written.</summary>
    Unavailable,

    /// <summary>There is no room left.</summary>
    Full,

    /// <summary>What it gives back is not what was written.</summary>
    Damaged,
}

/// <summary>The store failed; the act was not acknowledged. Sent again with the same key it is done once.</summary>
/// <param name="kind">What is the matter.</param>
/// <param name="message">What the store says.</param>
/// <param name="cause">Where it comes from.</param>
public sealed class StoreFaultException(StoreFaultKind kind, string message, Exception? cause) : Exception(message, cause)
{
    /// <summary>What is the matter.</summary>
    public StoreFaultKind Kind { get; } = kind;

    /// <summary>The fault behind an exception of the libraries; null where it is something else.</summary>
    internal static StoreFaultException? Of(Exception error)
    {
        for (var inner = error; inner is not null; inner = inner.InnerException)
        {
            if (KindOf(inner) is { } kind)
            {
                return new StoreFaultException(kind, inner.Message, error);
            }
        }

        return null;
    }

    /// <summary>True where two writers met and the loser only has to look again.</summary>
    internal static bool IsLostRace(Exception error) => error switch
    {
        DbUpdateConcurrencyException => true,
        DbUpdateException { InnerException: { } inner } => IsLostRace(inner),
        SqliteException sqlite => sqlite.SqliteErrorCode == raw.SQLITE_CONSTRAINT,
        PostgresException postgres => postgres.SqlState is PostgresErrorCodes.UniqueViolation or PostgresErrorCodes.SerializationFailure or PostgresErrorCodes.DeadlockDetected,
        _ => false,
    };

    private static StoreFaultKind? KindOf(Exception error) => error switch
    {
        SqliteException { SqliteErrorCode: raw.SQLITE_FULL } => StoreFaultKind.Full,
        SqliteException { SqliteErrorCode: raw.SQLITE_CORRUPT or raw.SQLITE_NOTADB } => StoreFaultKind.Damaged,
        SqliteException => StoreFaultKind.Unavailable,
        PostgresException { SqlState: ['5', '3', ..] and not PostgresErrorCodes.TooManyConnections } => StoreFaultKind.Full,
        PostgresException { SqlState: PostgresErrorCodes.DataCorrupted or PostgresErrorCodes.IndexCorrupted } => StoreFaultKind.Damaged,
        DbException or SocketException or IOException or TimeoutException => StoreFaultKind.Unavailable,
        _ => null,
    };
}
