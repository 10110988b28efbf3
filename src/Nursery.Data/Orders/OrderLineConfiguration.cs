using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Crops;
using Nursery.Domain.Orders;
using Nursery.Domain.Sites;

namespace Nursery.Data.Orders;

internal sealed class OrderLineConfiguration : IEntityTypeConfiguration<OrderLine>
{
    public void Configure(EntityTypeBuilder<OrderLine> builder)
    {
        builder.ToTable("order_lines");
        builder.HasIndex(line => new { line.OrderId, line.VarietyId, line.ReadyOn }).IsUnique();
        builder.HasIndex(line => new { line.SiteId, line.ReadyOn });
        builder.HasOne<Site>().WithMany().HasForeignKey(line => line.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Order>().WithMany().HasForeignKey(line => line.OrderId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Variety>().WithMany().HasForeignKey(line => line.VarietyId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table => table.HasCheckConstraint("ck_order_lines_plants", "plants >= 1"));
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
