using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Runs;
using Nursery.Domain.Sites;

namespace Nursery.Data.Runs;

internal sealed class BackgroundRunConfiguration : IEntityTypeConfiguration<BackgroundRun>
{
    public void Configure(EntityTypeBuilder<BackgroundRun> builder)
    {
        builder.ToTable("background_runs");
        builder.Ignore(run => run.IsLive);
        builder.Property(run => run.Message).HasMaxLength(1000);
        builder.Property(run => run.Result).HasColumnType("jsonb").HasMaxLength(-1);
        builder.HasIndex(run => new { run.SiteId, run.Kind, run.StartedAt });
        builder.HasOne<Site>().WithMany().HasForeignKey(run => run.SiteId).OnDelete(DeleteBehavior.Restrict);

        // One live run of a kind a site, whoever starts two at the same moment.
        builder.HasIndex(run => new { run.SiteId, run.Kind }).IsUnique()
            .HasFilter("state IN ('Queued', 'Running')").HasDatabaseName("ux_background_runs_live");
    }
}
