using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Data.TraySets;

internal sealed class TraySetConfiguration : IEntityTypeConfiguration<TraySet>
{
    public void Configure(EntityTypeBuilder<TraySet> builder)
    {
        builder.ToTable("tray_sets");
        builder.HasIndex(set => new { set.SiteId, set.Code }).IsUnique();
        builder.HasOne<Site>().WithMany().HasForeignKey(set => set.SiteId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<TrayType>().WithMany().HasForeignKey(set => set.TrayTypeId).OnDelete(DeleteBehavior.Restrict);
        builder.ToTable(table => table.HasCheckConstraint("ck_tray_sets_trays", "trays >= 1 and cells_per_tray >= 1 and footprint > 0"));
    }
}
