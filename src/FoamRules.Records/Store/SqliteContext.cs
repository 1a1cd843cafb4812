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

    // What brings the tables up to date marks the file with a row while it works, and waits for ever where it finds one: also for
    // a row of a process that was killed. A lock of the operating system goes with its process, so whoever holds it
    // knows that a row that is still there is nobody's.
    internal override async Task BringUpToDate(CancellationToken cancellation)
    {
        using var only = await OneAtATime(Database.GetDbConnection().DataSource + ".migrating", cancellation).ConfigureAwait(false);
        // It also looks at the file through a connection that may only read, which fails on what a killed process left half written.
        // One that may write puts that right as soon as it looks.
        await Database.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        await Database.ExecuteSqlAsync($"PRAGMA journal_mode = 'wal'", cancellation).ConfigureAwait(false);
        await Database.ExecuteSqlAsync($"DROP TABLE IF EXISTS __EFMigrationsLock", cancellation).ConfigureAwait(false);
        await base.BringUpToDate(cancellation).ConfigureAwait(false);
    }

    // The file stays: taken away, it could be locked by one process while another makes a new one of the same name.
    private static async Task<FileStream> OneAtATime(string file, CancellationToken cancellation)
    {
        if (Directory.Exists(Path.GetDirectoryName(Path.GetFullPath(file))))
        {
            while (true)
            {
                try
                {
                    return new FileStream(file, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
                }
                catch (IOException error) when (IsHeld(error))
                {
                    await Task.Delay(TimeSpan.FromMilliseconds(100), cancellation).ConfigureAwait(false);
                }
            }
        }

        throw new DirectoryNotFoundException($"there is no folder for {file}");
    }

    // On a file that another process holds: a sharing violation of Windows, EWOULDBLOCK of Unix.
    private static bool IsHeld(IOException error) => (error.HResult & 0xFFFF) is 32 or 33 || error.HResult is 11 or 35;

    // On Linux a file that was deleted can still be written to through a connection that has it open; what is written there is lost.
    internal override void MustStillBeThere()
    {
        if (!File.Exists(Database.GetDbConnection().DataSource))
        {
            throw new IOException("the file of the store is gone");
        }
    }

    // A file has one writer at a time.
    internal override Task<List<RecheckPartRow>> ClaimPart(string runId, string worker, long now, long until, long beyond, CancellationToken cancellation) =>
        RecheckParts.FromSql($"""
            UPDATE recheck_parts SET claimed_by = {worker}, claimed_until = {until}
            WHERE run_id = {runId} AND first = (
                SELECT first FROM recheck_parts WHERE run_id = {runId} AND result IS NULL AND (claimed_until < {now} OR claimed_until > {beyond})
                ORDER BY first LIMIT 1)
            RETURNING *
            """).AsNoTracking().ToListAsync(cancellation);

    internal sealed class ForMigrations : IDesignTimeDbContextFactory<SqliteContext>
    {
        public SqliteContext CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<SqliteContext>().UseSqlite().Options);
    }
}
