using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;

namespace Nursery.Data.Benches;

internal sealed class BenchConfiguration : IEntityTypeConfiguration<Bench>
{
    public void Configure(EntityTypeBuilder<Bench> builder)
    {
        builder.ToTable("benches");
        builder.HasIndex(bench => new { bench.SiteId, bench.Code }).IsUnique();

        // Reservations carry the capacity of their bench: a foreign key onto this index, ON UPDATE CASCADE,
        // keeps the two equal. (An EF alternate key would forbid a bench to grow.)
        builder.HasIndex(bench => new { bench.Id, bench.Capacity }).IsUnique();
        builder.HasOne<Site>().WithMany().HasForeignKey(bench => bench.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<House>().WithMany().HasForeignKey(bench => bench.HouseId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table => table.HasCheckConstraint("ck_benches_capacity", "capacity >= 1 and rows >= 1"));
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
