using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Data.HeatZones;

internal sealed class ZoneReadingConfiguration : IEntityTypeConfiguration<ZoneReading>
{
    public void Configure(EntityTypeBuilder<ZoneReading> builder)
    {
        builder.ToTable("zone_readings");
        builder.HasKey(row => new { row.ZoneId, row.At });
        builder.HasIndex(row => new { row.SiteId, row.At });
        builder.Property(row => row.TemperatureC).HasPrecision(5, 2);
        builder.HasOne<Site>().WithMany().HasForeignKey(row => row.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<HeatZone>().WithMany().HasForeignKey(row => row.ZoneId).OnDelete(DeleteBehavior.Cascade);
    }
}
