using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;

namespace Nursery.Data.Ledger;

internal sealed class LedgerEntryConfiguration : IEntityTypeConfiguration<LedgerEntry>
{
    public void Configure(EntityTypeBuilder<LedgerEntry> builder)
    {
        builder.ToTable("ledger");
        builder.HasIndex(entry => entry.BatchId);
        builder.HasIndex(entry => entry.TraySetId);
        builder.HasIndex(entry => entry.UndoOf);
        builder.HasIndex(entry => entry.BenchId).HasFilter("batch_id IS NULL");
        builder.HasIndex(entry => entry.HouseId).HasFilter("house_id IS NOT NULL");
        builder.HasIndex(entry => new { entry.SiteId, entry.Day, entry.Kind });
        builder.Property(entry => entry.Sent).HasColumnType("jsonb").HasMaxLength(-1);
        builder.Ignore(entry => entry.EffectiveAt);
        builder.HasOne<Site>().WithMany().HasForeignKey(entry => entry.SiteId).OnDelete(DeleteBehavior.Restrict);
    }
}
