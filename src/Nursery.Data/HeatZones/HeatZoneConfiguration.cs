using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Data.HeatZones;

internal sealed class HeatZoneConfiguration : IEntityTypeConfiguration<HeatZone>
{
    public void Configure(EntityTypeBuilder<HeatZone> builder)
    {
        builder.ToTable("heat_zones");
        builder.HasIndex(zone => new { zone.SiteId, zone.Code }).IsUnique();
        builder.HasIndex(zone => zone.BenchId);
        builder.Property(zone => zone.SetpointC).HasPrecision(5, 2);
        builder.Property(zone => zone.ReadsC).HasPrecision(5, 2);
        builder.Property(zone => zone.MatWattsM2).HasPrecision(6, 1);
        builder.Property(zone => zone.OffsetC).HasPrecision(5, 2);
        builder.Property(zone => zone.OffsetLowC).HasPrecision(5, 2);
        builder.Property(zone => zone.OffsetHighC).HasPrecision(5, 2);
        builder.HasOne<Site>().WithMany().HasForeignKey(zone => zone.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Bench>().WithMany().HasForeignKey(zone => zone.BenchId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
