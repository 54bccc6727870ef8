using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Stillhook.Store;

/// <summary>The tables. The record's bytes stand in a table of their own, so that listing flights never touches them.</summary>
internal sealed class StillhookContext(DbContextOptions<StillhookContext> options) : DbContext(options)
{
    public DbSet<FlightRow> Flights => Set<FlightRow>();

    public DbSet<RecordRow> Records => Set<RecordRow>();

    protected override void OnModelCreating(ModelBuilder model)
    {
        model.Entity<FlightRow>(flight =>
        {
            flight.ToTable("flight");
            flight.HasIndex(f => f.Digest).IsUnique();
            flight.Property(f => f.ImportedAt).HasConversion(
                new ValueConverter<DateTimeOffset, long>(t => t.UtcTicks, ticks => new DateTimeOffset(ticks, TimeSpan.Zero)));
        });
        model.Entity<RecordRow>(record =>
        {
            record.ToTable("record");
            record.HasKey(r => r.FlightId);
            record.Property(r => r.FlightId).ValueGeneratedNever();
            record.HasOne<FlightRow>().WithOne().HasForeignKey<RecordRow>(r => r.FlightId).OnDelete(DeleteBehavior.Cascade);
        });
    }
}

internal sealed class FlightRow
{
    public long Id { get; set; }
    public required string Name { get; set; }
    public required string Digest { get; set; }
    public required long Bytes { get; set; }
    public required DateTimeOffset ImportedAt { get; set; }
    public string? JobText { get; set; }
    public string? TypedJson { get; set; }
    public string? SummaryJson { get; set; }
}

internal sealed class RecordRow
{
    public long FlightId { get; set; }
    public required byte[] Content { get; set; }
}

/// <summary>Used only by the migrations tool.</summary>
internal sealed class DesignTimeContext : IDesignTimeDbContextFactory<StillhookContext>
{
    public StillhookContext CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<StillhookContext>().UseSqlite("Data Source=design-time.db").Options);
}
