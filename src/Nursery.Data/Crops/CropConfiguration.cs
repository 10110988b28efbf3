using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Crops;

namespace Nursery.Data.Crops;

internal sealed class CropConfiguration : IEntityTypeConfiguration<Crop>
{
    public void Configure(EntityTypeBuilder<Crop> builder)
    {
        builder.ToTable("crops");
        builder.HasIndex(crop => crop.Code).IsUnique();
        builder.Property(crop => crop.Code).HasMaxLength(2);
        builder.Property(crop => crop.GerminationMinC).HasPrecision(5, 2);
        builder.Property(crop => crop.GerminationOptimumC).HasPrecision(5, 2);
        builder.Property(crop => crop.GerminationMaxC).HasPrecision(5, 2);
        builder.Property(crop => crop.Sources).HasMaxLength(4000);
        builder.Ignore(crop => crop.DaysToReady);
        builder.Ignore(crop => crop.PlannedHeatDays);
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
