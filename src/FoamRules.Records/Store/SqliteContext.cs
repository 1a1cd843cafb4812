using FoamRules.Records.Rechecks;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace FoamRules.Records.Store;

/// <summary>The tables in a SQLite file.</summary>
/// <param name="options">Which file.</param>
public sealed class SqliteContext(DbContextOptions<SqliteContext> options) : RecordsContext(options)
{
    // The transaction has taken the file's one write lock when it began.
    internal override Task BecomeTheOnlyWriter(CancellationToken cancellation) => Task.CompletedTask;

    // On Linux a file that was deleted can still be written to through a connection that has it open; what is written there is lost.
    internal override void MustStillBeThere()
    {
        if (!File.Exists(Database.GetDbConnection().DataSource))
        {
            throw new IOException("the file of the store is gone");
        }
    }

    // A file has one writer at a time.
    internal override Task<List<RecheckPartRow>> ClaimPart(string runId, string worker, long now, long until, CancellationToken cancellation) =>
        RecheckParts.FromSql($"""
            UPDATE recheck_parts SET claimed_by = {worker}, claimed_until = {until}
            WHERE run_id = {runId} AND first = (
                SELECT first FROM recheck_parts WHERE run_id = {runId} AND result IS NULL AND claimed_until < {now}
                ORDER BY first LIMIT 1)
            RETURNING *
            """).AsNoTracking().ToListAsync(cancellation);

    internal sealed class ForMigrations : IDesignTimeDbContextFactory<SqliteContext>
    {
        public SqliteContext CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<SqliteContext>().UseSqlite().Options);
    }
}
