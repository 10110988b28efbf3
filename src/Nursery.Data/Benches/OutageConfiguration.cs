using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Data.Benches;

internal sealed class OutageConfiguration : IEntityTypeConfiguration<Outage>
{
    public void Configure(EntityTypeBuilder<Outage> builder)
    {
        builder.ToTable("outages", table => table.HasCheckConstraint("ck_outages_not_empty", "not isempty(days)"));
        builder.HasIndex(row => row.SiteId);
        builder.HasIndex(row => row.ZoneId);
        builder.Ignore(row => row.To);
        builder.Property(row => row.Why).HasMaxLength(200);
        builder.Property(row => row.WhoName).HasMaxLength(200);
        builder.HasOne<Site>().WithMany().HasForeignKey(row => row.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Bench>().WithMany().HasForeignKey(row => row.BenchId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<HeatZone>().WithMany().HasForeignKey(row => row.ZoneId).OnDelete(DeleteBehavior.Cascade);
    }
}
