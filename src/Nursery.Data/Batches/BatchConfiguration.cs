using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;

namespace Nursery.Data.Batches;

internal sealed class BatchConfiguration : IEntityTypeConfiguration<Batch>
{
    public void Configure(EntityTypeBuilder<Batch> builder)
    {
        builder.ToTable("batches");
        builder.HasIndex(batch => new { batch.SiteId, batch.Code }).IsUnique();
        builder.HasIndex(batch => new { batch.SiteId, batch.SowOn });
        builder.HasOne<Site>().WithMany().HasForeignKey(batch => batch.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Variety>().WithMany().HasForeignKey(batch => batch.VarietyId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<SeedLot>().WithMany().HasForeignKey(batch => batch.LotId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Batch>().WithMany().HasForeignKey(batch => batch.ResownFor).OnDelete(DeleteBehavior.Restrict);
        builder.ComplexProperty(batch => batch.State, state => state.Ignore(row => row.EmergedFraction));
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
