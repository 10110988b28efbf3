using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Orders;

namespace Nursery.Data.Orders;

internal sealed class OrderDeliveryConfiguration : IEntityTypeConfiguration<OrderDelivery>
{
    public void Configure(EntityTypeBuilder<OrderDelivery> builder)
    {
        builder.ToTable("order_deliveries");
        builder.HasIndex(delivery => new { delivery.OrderLineId, delivery.ReadyOn }).IsUnique();
        builder.HasOne<OrderLine>().WithMany().HasForeignKey(delivery => delivery.OrderLineId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table => table.HasCheckConstraint("ck_order_deliveries_plants", "plants >= 1"));
    }
}
