using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Crops;
using Nursery.Domain.Orders;

namespace Nursery.Data.Orders;

internal sealed class OrderSubstituteConfiguration : IEntityTypeConfiguration<OrderSubstitute>
{
    public void Configure(EntityTypeBuilder<OrderSubstitute> builder)
    {
        builder.ToTable("order_substitutes");
        builder.HasKey(substitute => new { substitute.OrderLineId, substitute.VarietyId });
        builder.HasIndex(substitute => substitute.VarietyId);
        builder.HasOne<OrderLine>().WithMany().HasForeignKey(substitute => substitute.OrderLineId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Variety>().WithMany().HasForeignKey(substitute => substitute.VarietyId).OnDelete(DeleteBehavior.Restrict);
    }
}
