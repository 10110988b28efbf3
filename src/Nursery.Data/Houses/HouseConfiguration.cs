using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;

namespace Nursery.Data.Houses;

internal sealed class HouseConfiguration : IEntityTypeConfiguration<House>
{
    public void Configure(EntityTypeBuilder<House> builder)
    {
        builder.ToTable("houses");
        builder.HasIndex(house => new { house.SiteId, house.Code }).IsUnique();
        builder.Property(house => house.CoverShare).HasPrecision(4, 3);
        builder.Property(house => house.LampPpfd).HasPrecision(6, 1);
        builder.Property(house => house.LampWattsM2).HasPrecision(6, 1);
        builder.Property(house => house.AirC).HasPrecision(5, 2);
        builder.HasOne<Site>().WithMany().HasForeignKey(house => house.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
