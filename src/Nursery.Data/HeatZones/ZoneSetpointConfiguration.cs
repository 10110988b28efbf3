using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Data.HeatZones;

internal sealed class ZoneSetpointConfiguration : IEntityTypeConfiguration<ZoneSetpoint>
{
    public void Configure(EntityTypeBuilder<ZoneSetpoint> builder)
    {
        builder.ToTable("zone_setpoints");
        builder.HasIndex(row => row.ZoneId);
        builder.Property(row => row.SetpointC).HasPrecision(5, 2);
        builder.HasOne<Site>().WithMany().HasForeignKey(row => row.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<HeatZone>().WithMany().HasForeignKey(row => row.ZoneId).OnDelete(DeleteBehavior.Restrict);
    }
}
