using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;

namespace Nursery.Data.Tasks;

internal sealed class RoundSheetConfiguration : IEntityTypeConfiguration<RoundSheet>
{
    public void Configure(EntityTypeBuilder<RoundSheet> builder)
    {
        builder.ToTable("round_sheets");
        builder.HasIndex(sheet => new { sheet.SiteId, sheet.Number }).IsUnique();
        builder.HasIndex(sheet => new { sheet.SiteId, sheet.Day });
        builder.HasOne<Site>().WithMany().HasForeignKey(sheet => sheet.SiteId).OnDelete(DeleteBehavior.Restrict);
    }
}
