using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Batches;
using Nursery.Domain.TraySets;

namespace Nursery.Data.TraySets;

internal sealed class TrayShareConfiguration : IEntityTypeConfiguration<TrayShare>
{
    public void Configure(EntityTypeBuilder<TrayShare> builder)
    {
        builder.ToTable("tray_shares");
        builder.HasKey(share => new { share.TraySetId, share.BatchId });
        builder.HasIndex(share => share.BatchId);
        builder.ToTable(table => table.HasCheckConstraint(
            "ck_tray_shares_rows", "(first_row is null) = (rows is null) and coalesce(first_row, 1) >= 1 and coalesce(rows, 1) >= 1"));
        builder.HasOne<TraySet>().WithMany().HasForeignKey(share => share.TraySetId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Batch>().WithMany().HasForeignKey(share => share.BatchId).OnDelete(DeleteBehavior.Restrict);
    }
}
