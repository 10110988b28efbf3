using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Batches;
using Nursery.Domain.Orders;

namespace Nursery.Data.Orders;

internal sealed class AllocationConfiguration : IEntityTypeConfiguration<Allocation>
{
    public void Configure(EntityTypeBuilder<Allocation> builder)
    {
        builder.ToTable("allocations");
        builder.HasKey(allocation => new { allocation.BatchId, allocation.OrderLineId });
        builder.HasIndex(allocation => allocation.OrderLineId);
        builder.HasOne<Batch>().WithMany().HasForeignKey(allocation => allocation.BatchId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<OrderLine>().WithMany().HasForeignKey(allocation => allocation.OrderLineId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<OrderDelivery>().WithMany().HasForeignKey(allocation => allocation.DeliveryId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table => table.HasCheckConstraint("ck_allocations_plants", "plants >= 1"));
    }
}
