using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace FoamRules.Records.Store;

/// <summary>The tables in a PostgreSQL database.</summary>
/// <param name="options">Which database.</param>
public sealed class PostgresContext(DbContextOptions<PostgresContext> options) : RecordsContext(options)
{
    /// <summary>The number of the advisory lock that writers take, whatever instance they run in; it means nothing else.</summary>
    internal const long WritersLock = 0x466F616D;

    internal override Task BecomeTheOnlyWriter(CancellationToken cancellation) =>
        Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({WritersLock})", cancellation);

    internal sealed class ForMigrations : IDesignTimeDbContextFactory<PostgresContext>
    {
        public PostgresContext CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<PostgresContext>().UseNpgsql().Options);
    }
}
