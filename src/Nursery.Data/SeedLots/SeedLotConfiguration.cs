using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;

namespace Nursery.Data.SeedLots;

internal sealed class SeedLotConfiguration : IEntityTypeConfiguration<SeedLot>
{
    public void Configure(EntityTypeBuilder<SeedLot> builder)
    {
        builder.ToTable("seed_lots");
        builder.HasIndex(lot => lot.Code).IsUnique();
        builder.HasOne<Variety>().WithMany().HasForeignKey(lot => lot.VarietyId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table => table.HasCheckConstraint("ck_seed_lots_stock", "stock_seeds >= 0"));
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
