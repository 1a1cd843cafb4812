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

    internal sealed class ForMigrations : IDesignTimeDbContextFactory<SqliteContext>
    {
        public SqliteContext CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<SqliteContext>().UseSqlite().Options);
    }
}
