using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Stillhook.Store;

/// <summary>The tables, the same on every database. What is large (records, tracks, cards) stands in tables of its own, so that listing never touches it.</summary>
internal abstract class StillhookContext(DbContextOptions options) : DbContext(options)
{
    public DbSet<FlightRow> Flights => Set<FlightRow>();
    public DbSet<RecordRow> Records => Set<RecordRow>();
    public DbSet<FlightWorkRow> FlightWork => Set<FlightWorkRow>();
    public DbSet<TrackRow> Tracks => Set<TrackRow>();
    public DbSet<TrackColumnRow> TrackColumns => Set<TrackColumnRow>();
    public DbSet<LiftRow> Lifts => Set<LiftRow>();
    public DbSet<LiftMeasuresRow> LiftMeasures => Set<LiftMeasuresRow>();
    public DbSet<CorrectionRow> Corrections => Set<CorrectionRow>();
    public DbSet<ExceedanceRow> Exceedances => Set<ExceedanceRow>();
    public DbSet<HoverPointRow> HoverPoints => Set<HoverPointRow>();
    public DbSet<JobRow> Jobs => Set<JobRow>();
    public DbSet<JobRevisionRow> JobRevisions => Set<JobRevisionRow>();
    public DbSet<JobSiteRow> JobSites => Set<JobSiteRow>();
    public DbSet<SiteRow> Sites => Set<SiteRow>();
    public DbSet<AircraftRow> Aircraft => Set<AircraftRow>();
    public DbSet<PartRow> Parts => Set<PartRow>();
    public DbSet<PartEntryRow> PartEntries => Set<PartEntryRow>();
    public DbSet<CardRow> Cards => Set<CardRow>();
    public DbSet<CardContentRow> CardContents => Set<CardContentRow>();
    public DbSet<DayEntryRow> DayEntries => Set<DayEntryRow>();
    public DbSet<Account> Accounts => Set<Account>();

    /// <summary>Moments are kept as UTC ticks on every database: exact, and they sort.</summary>
    protected override void ConfigureConventions(ModelConfigurationBuilder conventions) => conventions.Properties<DateTimeOffset>().HaveConversion<UtcTicks>();

    protected override void OnModelCreating(ModelBuilder model)
    {
        ModelFlights(model);
        ModelLifts(model);
        ModelJobs(model);
        ModelParts(model);
        ModelAccounts(model);
        model.Entity<DayEntryRow>(entry =>
        {
            entry.ToTable("day_entry");
            entry.HasIndex(e => e.Key).IsUnique();
            entry.HasIndex(e => e.Day);
        });
    }

    private static void ModelFlights(ModelBuilder model)
    {
        model.Entity<FlightRow>(flight =>
        {
            flight.ToTable("flight");
            flight.HasIndex(f => f.Digest).IsUnique();
        });
        model.Entity<RecordRow>(record =>
        {
            record.ToTable("record");
            record.HasKey(r => r.FlightId);
            record.Property(r => r.FlightId).ValueGeneratedNever();
            record.HasOne<FlightRow>().WithOne().HasForeignKey<RecordRow>(r => r.FlightId).OnDelete(DeleteBehavior.Cascade);
        });
        model.Entity<FlightWorkRow>(work =>
        {
            work.ToTable("flight_work");
            work.HasKey(w => w.FlightId);
            work.Property(w => w.FlightId).ValueGeneratedNever();
            work.HasOne<FlightRow>().WithOne().HasForeignKey<FlightWorkRow>(w => w.FlightId).OnDelete(DeleteBehavior.Cascade);
            work.HasOne<JobRow>().WithMany().HasForeignKey(w => w.JobKey).OnDelete(DeleteBehavior.SetNull);
            work.HasIndex(w => w.FromS);
            work.HasIndex(w => w.Pilot);
            work.HasIndex(w => w.Aircraft);
        });
        model.Entity<TrackRow>(track =>
        {
            track.ToTable("track");
            track.HasKey(t => t.FlightId);
            track.Property(t => t.FlightId).ValueGeneratedNever();
            track.HasOne<FlightRow>().WithOne().HasForeignKey<TrackRow>(t => t.FlightId).OnDelete(DeleteBehavior.Cascade);
        });
        model.Entity<TrackColumnRow>(column =>
        {
            column.ToTable("track_column");
            column.HasKey(c => new { c.FlightId, c.Name });
            column.HasOne<TrackRow>().WithMany().HasForeignKey(c => c.FlightId).OnDelete(DeleteBehavior.Cascade);
        });
        model.Entity<ExceedanceRow>(exceedance =>
        {
            exceedance.ToTable("exceedance");
            exceedance.Property(e => e.Kind).HasConversion<string>();
            exceedance.HasOne<FlightRow>().WithMany().HasForeignKey(e => e.FlightId).OnDelete(DeleteBehavior.Cascade);
        });
        model.Entity<HoverPointRow>(point =>
        {
            point.ToTable("hover_point");
            point.Property(p => p.FuelFrom).HasConversion<string>();
            point.HasOne<FlightRow>().WithMany().HasForeignKey(p => p.FlightId).OnDelete(DeleteBehavior.Cascade);
            point.HasIndex(p => new { p.Aircraft, p.AtS });
        });
    }

    private static void ModelLifts(ModelBuilder model)
    {
        model.Entity<LiftRow>(lift =>
        {
            lift.ToTable("lift");
            lift.Property(l => l.Confidence).HasConversion<string>();
            lift.HasIndex(l => l.Key).IsUnique();
            lift.HasIndex(l => new { l.FlightId, l.AtS });
            lift.HasIndex(l => l.Day);
            lift.HasOne<FlightRow>().WithMany().HasForeignKey(l => l.FlightId).OnDelete(DeleteBehavior.Cascade);
        });
        model.Entity<LiftMeasuresRow>(measures =>
        {
            measures.ToTable("lift_measures");
            measures.HasKey(m => m.LiftId);
            measures.Property(m => m.LiftId).ValueGeneratedNever();
            measures.HasOne<LiftRow>().WithOne().HasForeignKey<LiftMeasuresRow>(m => m.LiftId).OnDelete(DeleteBehavior.Cascade);
        });
        model.Entity<CorrectionRow>(correction =>
        {
            correction.ToTable("correction");
            correction.HasIndex(c => c.Key).IsUnique();
            correction.HasOne<LiftRow>().WithMany().HasForeignKey(c => c.LiftId).OnDelete(DeleteBehavior.Cascade);
        });
    }

    private static void ModelJobs(ModelBuilder model)
    {
        model.Entity<JobRow>(job =>
        {
            job.ToTable("job");
            job.HasKey(j => j.Key);
            job.Property(j => j.Key).ValueGeneratedNever();
            job.HasIndex(j => j.Day);
        });
        model.Entity<JobRevisionRow>(revision =>
        {
            revision.ToTable("job_revision");
            revision.HasKey(r => new { r.JobKey, r.Number });
            revision.HasOne<JobRow>().WithMany().HasForeignKey(r => r.JobKey).OnDelete(DeleteBehavior.Cascade);
        });
        model.Entity<SiteRow>(site =>
        {
            site.ToTable("site");
            site.HasKey(s => s.Key);
            site.Property(s => s.Key).ValueGeneratedNever();
        });
        model.Entity<JobSiteRow>(link =>
        {
            link.ToTable("job_site");
            link.HasKey(l => new { l.JobKey, l.SiteKey });
            link.HasOne<JobRow>().WithMany().HasForeignKey(l => l.JobKey).OnDelete(DeleteBehavior.Cascade);
            link.HasOne<SiteRow>().WithMany().HasForeignKey(l => l.SiteKey).OnDelete(DeleteBehavior.Restrict);
        });
        model.Entity<CardRow>(card =>
        {
            card.ToTable("card");
            card.HasKey(c => c.Key);
            card.Property(c => c.Key).ValueGeneratedNever();
            card.HasOne<JobRow>().WithMany().HasForeignKey(c => c.JobKey).OnDelete(DeleteBehavior.Cascade);
        });
        model.Entity<CardContentRow>(content =>
        {
            content.ToTable("card_content");
            content.HasKey(c => c.CardKey);
            content.Property(c => c.CardKey).ValueGeneratedNever();
            content.HasOne<CardRow>().WithOne().HasForeignKey<CardContentRow>(c => c.CardKey).OnDelete(DeleteBehavior.Cascade);
        });
    }

    private static void ModelParts(ModelBuilder model)
    {
        model.Entity<AircraftRow>(aircraft =>
        {
            aircraft.ToTable("aircraft");
            aircraft.HasKey(a => a.Name);
        });
        model.Entity<PartRow>(part =>
        {
            part.ToTable("part");
            part.HasKey(p => p.Name);
            part.Property(p => p.Kind).HasConversion<string>();
        });
        model.Entity<PartEntryRow>(entry =>
        {
            entry.ToTable("part_entry");
            entry.HasIndex(e => e.Key).IsUnique();
            entry.Property(e => e.Kind).HasConversion<string>();
            entry.HasIndex(e => new { e.PartName, e.At });
            entry.HasOne<PartRow>().WithMany().HasForeignKey(e => e.PartName).OnDelete(DeleteBehavior.Restrict);
            entry.HasIndex(e => e.FlightDigest);
        });
    }

    /// <summary>Only what an account here has: no addresses, telephones or other ways in.</summary>
    private static void ModelAccounts(ModelBuilder model)
    {
        model.Entity<Account>(account =>
        {
            account.ToTable("account");
            account.Ignore(a => a.Email).Ignore(a => a.NormalizedEmail).Ignore(a => a.EmailConfirmed).Ignore(a => a.PhoneNumber).Ignore(a => a.PhoneNumberConfirmed).Ignore(a => a.TwoFactorEnabled);
            account.HasIndex(a => a.NormalizedUserName).IsUnique();
            account.Property(a => a.ConcurrencyStamp).IsConcurrencyToken();
        });
        model.Entity<IdentityUserClaim<string>>(claim =>
        {
            claim.ToTable("account_claim");
            claim.HasOne<Account>().WithMany().HasForeignKey(c => c.UserId).OnDelete(DeleteBehavior.Cascade);
        });
    }

    private sealed class UtcTicks() : ValueConverter<DateTimeOffset, long>(t => t.UtcTicks, ticks => new DateTimeOffset(ticks, TimeSpan.Zero));
}

/// <summary>The tables in a SQLite file.</summary>
internal sealed class SqliteContext(DbContextOptions<SqliteContext> options) : StillhookContext(options);

/// <summary>The tables in a PostgreSQL database.</summary>
internal sealed class PostgresContext(DbContextOptions<PostgresContext> options) : StillhookContext(options);

/// <summary>Used only by the migrations tool.</summary>
internal sealed class SqliteDesign : IDesignTimeDbContextFactory<SqliteContext>
{
    public SqliteContext CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<SqliteContext>().UseSqlite("Data Source=design-time.db").Options);
}

/// <summary>Used only by the migrations tool.</summary>
internal sealed class PostgresDesign : IDesignTimeDbContextFactory<PostgresContext>
{
    public PostgresContext CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<PostgresContext>().UseNpgsql("Host=localhost").Options);
}
