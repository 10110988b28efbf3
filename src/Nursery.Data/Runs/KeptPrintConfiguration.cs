using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Runs;
using Nursery.Domain.Sites;

namespace Nursery.Data.Runs;

internal sealed class KeptPrintConfiguration : IEntityTypeConfiguration<KeptPrint>
{
    public void Configure(EntityTypeBuilder<KeptPrint> builder)
    {
        builder.ToTable("kept_prints");
        builder.HasIndex(print => print.KeptUntil);
        builder.HasOne<BackgroundRun>().WithOne().HasForeignKey<KeptPrint>(print => print.Id).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Site>().WithMany().HasForeignKey(print => print.SiteId).OnDelete(DeleteBehavior.Restrict);
    }
}
