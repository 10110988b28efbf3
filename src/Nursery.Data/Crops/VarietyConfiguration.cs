using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Crops;

namespace Nursery.Data.Crops;

internal sealed class VarietyConfiguration : IEntityTypeConfiguration<Variety>
{
    public void Configure(EntityTypeBuilder<Variety> builder)
    {
        builder.ToTable("varieties");
        builder.HasIndex(variety => variety.Code).IsUnique();
        builder.HasOne<Crop>().WithMany().HasForeignKey(variety => variety.CropId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
