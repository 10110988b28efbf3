using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Data.HeatZones;

internal sealed class ZoneAlarmConfiguration : IEntityTypeConfiguration<ZoneAlarm>
{
    public void Configure(EntityTypeBuilder<ZoneAlarm> builder)
    {
        builder.ToTable("zone_alarms");
        builder.HasIndex(row => new { row.ZoneId, row.Kind }).IsUnique().HasFilter("until IS NULL");
        builder.HasIndex(row => row.SiteId);
        builder.Property(row => row.WorstC).HasPrecision(5, 2);
        builder.Property(row => row.MinC).HasPrecision(5, 2);
        builder.Property(row => row.MaxC).HasPrecision(5, 2);
        builder.HasOne<Site>().WithMany().HasForeignKey(row => row.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<HeatZone>().WithMany().HasForeignKey(row => row.ZoneId).OnDelete(DeleteBehavior.Cascade);
    }
}
