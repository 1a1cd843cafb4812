using FoamRules.Records.Rechecks;
using Microsoft.EntityFrameworkCore;

namespace FoamRules.Records.Store;

/// <summary>The tables, the same on both stores.</summary>
/// <param name="options">Where they are.</param>
public abstract class RecordsContext(DbContextOptions options) : DbContext(options)
{
    /// <summary>The log.</summary>
    public DbSet<EntryRow> Entries => Set<EntryRow>();

    /// <summary>What can be searched of the reviews.</summary>
    public DbSet<ReviewRow> Reviews => Set<ReviewRow>();

    /// <summary>What can be searched of their findings.</summary>
    public DbSet<FindingRow> Findings => Set<FindingRow>();

    /// <summary>The rule sets that reports were made with.</summary>
    public DbSet<RuleSetRow> RuleSets => Set<RuleSetRow>();

    /// <summary>Runs through the archive.</summary>
    public DbSet<RecheckRunRow> RecheckRuns => Set<RecheckRunRow>();

    /// <summary>Their parts.</summary>
    public DbSet<RecheckPartRow> RecheckParts => Set<RecheckPartRow>();

    /// <summary>Claims a part of a run that is neither done nor in others' hands, in one statement: no two workers get the same.</summary>
    /// <param name="runId">The run.</param>
    /// <param name="worker">Who claims.</param>
    /// <param name="now">Now, in microseconds since 1970-01-01 UTC.</param>
    /// <param name="until">Until when the part is theirs.</param>
    /// <param name="beyond">Nobody claims for so long: a claim until after this is none.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <returns>The part, or nothing where all are done or claimed.</returns>
    internal abstract Task<List<RecheckPartRow>> ClaimPart(string runId, string worker, long now, long until, long beyond, CancellationToken cancellation);

    /// <summary>Waits until no other writer is between reading the end of the log and writing behind it.</summary>
    internal abstract Task BecomeTheOnlyWriter(CancellationToken cancellation);

    /// <summary>Creates the tables where they are missing, and brings older ones up to date.</summary>
    internal virtual Task BringUpToDate(CancellationToken cancellation) => Database.MigrateAsync(cancellation);

    /// <summary>Asked before a commit: a store that was taken away meanwhile must not acknowledge anything.</summary>
    internal virtual void MustStillBeThere()
    {
    }

    /// <inheritdoc/>
    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        var entry = modelBuilder.Entity<EntryRow>().ToTable("entries");
        entry.HasKey(row => row.Sequence);
        entry.Property(row => row.Sequence).ValueGeneratedNever().HasColumnName("sequence");
        entry.Property(row => row.AtMicroseconds).HasColumnName("at_microseconds");
        entry.Property(row => row.Actor).HasColumnName("actor");
        entry.Property(row => row.Role).HasColumnName("role");
        entry.Property(row => row.Identity).HasColumnName("identity");
        entry.Property(row => row.Kind).HasColumnName("kind");
        entry.Property(row => row.ReviewId).HasColumnName("review_id");
        entry.Property(row => row.IdempotencyKey).HasColumnName("idempotency_key");
        entry.Property(row => row.RequestDigest).HasColumnName("request_digest");
        entry.Property(row => row.Act).HasColumnName("act");
        entry.Property(row => row.PreviousHash).HasColumnName("previous_hash");
        entry.Property(row => row.Hash).HasColumnName("hash");
        entry.HasIndex(row => row.IdempotencyKey).IsUnique();
        entry.HasIndex(row => new { row.ReviewId, row.Sequence });

        var review = modelBuilder.Entity<ReviewRow>().ToTable("reviews");
        review.HasKey(row => row.Id);
        review.Property(row => row.Id).HasColumnName("id");
        review.Property(row => row.FirstSequence).HasColumnName("first_sequence");
        review.Property(row => row.Version).HasColumnName("version").IsConcurrencyToken();
        review.Property(row => row.Summary).HasColumnName("summary");
        review.Property(row => row.SearchText).HasColumnName("search_text");
        review.Property(row => row.WorkDate).HasColumnName("work_date");
        review.Property(row => row.Disposition).HasColumnName("disposition");
        review.HasIndex(row => row.FirstSequence).IsUnique();
        review.HasIndex(row => row.WorkDate);
        review.HasMany(row => row.Findings).WithOne().HasForeignKey(row => row.ReviewId);

        var finding = modelBuilder.Entity<FindingRow>().ToTable("findings");
        finding.HasKey(row => new { row.ReviewId, row.Place });
        finding.Property(row => row.ReviewId).HasColumnName("review_id");
        finding.Property(row => row.Place).HasColumnName("place");
        finding.Property(row => row.Requirement).HasColumnName("requirement");
        finding.Property(row => row.Severity).HasColumnName("severity");
        finding.Property(row => row.ReleasedUntil).HasColumnName("released_until");
        finding.HasIndex(row => row.Requirement);

        var ruleSet = modelBuilder.Entity<RuleSetRow>().ToTable("rule_sets");
        ruleSet.HasKey(row => row.Digest);
        ruleSet.Property(row => row.Digest).HasColumnName("digest");
        ruleSet.Property(row => row.Id).HasColumnName("id");
        ruleSet.Property(row => row.Text).HasColumnName("text");

        var run = modelBuilder.Entity<RecheckRunRow>().ToTable("recheck_runs");
        run.HasKey(row => row.Id);
        run.Property(row => row.Id).HasColumnName("id");
        run.Property(row => row.StartedMicroseconds).HasColumnName("started_microseconds");
        run.Property(row => row.Rules).HasColumnName("rules");
        run.Property(row => row.Engine).HasColumnName("engine");
        run.Property(row => row.Reviews).HasColumnName("reviews");

        var part = modelBuilder.Entity<RecheckPartRow>().ToTable("recheck_parts");
        part.HasKey(row => new { row.RunId, row.First });
        part.Property(row => row.RunId).HasColumnName("run_id");
        part.Property(row => row.First).HasColumnName("first");
        part.Property(row => row.Last).HasColumnName("last");
        part.Property(row => row.Reviews).HasColumnName("reviews");
        part.Property(row => row.ClaimedBy).HasColumnName("claimed_by");
        part.Property(row => row.ClaimedUntil).HasColumnName("claimed_until");
        part.Property(row => row.Result).HasColumnName("result");
        part.HasOne<RecheckRunRow>().WithMany().HasForeignKey(row => row.RunId);
    }
}
