using FoamRules.Records.Rechecks;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace FoamRules.Records.Store;

/// <summary>The tables in a PostgreSQL database.</summary>
/// <param name="options">Which database.</param>
public sealed class PostgresContext(DbContextOptions<PostgresContext> options) : RecordsContext(options)
{
    /// <summary>The number of the advisory lock that writers take, whatever instance they run in; it means nothing else.</summary>
    internal const long WritersLock = 0x466F616D;

    private const long MigrationLock = WritersLock + 1;

    internal override Task BecomeTheOnlyWriter(CancellationToken cancellation) =>
        Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({WritersLock})", cancellation);

    // What brings the tables up to date locks between one migration and the next only: several instances that start at once on an
    // older or new database would each make what another has just made.
    internal override async Task BringUpToDate(CancellationToken cancellation)
    {
        if (!await Database.CanConnectAsync(cancellation).ConfigureAwait(false))
        {
            await base.BringUpToDate(cancellation).ConfigureAwait(false);
            return;
        }

        // The lock belongs to the connection, and goes with it.
        await Database.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        try
        {
            await Database.ExecuteSqlAsync($"SELECT pg_advisory_lock({MigrationLock})", cancellation).ConfigureAwait(false);
            await base.BringUpToDate(cancellation).ConfigureAwait(false);
            await Database.ExecuteSqlAsync($"SELECT pg_advisory_unlock({MigrationLock})", cancellation).ConfigureAwait(false);
        }
        finally
        {
            await Database.CloseConnectionAsync().ConfigureAwait(false);
        }
    }

    // A part that another is claiming at this moment is locked: it is passed over, not waited for.
    internal override Task<List<RecheckPartRow>> ClaimPart(string runId, string worker, long now, long until, long beyond, CancellationToken cancellation) =>
        RecheckParts.FromSql($"""
            UPDATE recheck_parts SET claimed_by = {worker}, claimed_until = {until}
            WHERE run_id = {runId} AND first = (
                SELECT first FROM recheck_parts WHERE run_id = {runId} AND result IS NULL AND (claimed_until < {now} OR claimed_until > {beyond})
                ORDER BY first LIMIT 1 FOR UPDATE SKIP LOCKED)
            RETURNING *
            """).AsNoTracking().ToListAsync(cancellation);

    internal sealed class ForMigrations : IDesignTimeDbContextFactory<PostgresContext>
    {
        public PostgresContext CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<PostgresContext>().UseNpgsql().Options);
    }
}
