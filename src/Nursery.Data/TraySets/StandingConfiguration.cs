using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Benches;
using Nursery.Domain.TraySets;

namespace Nursery.Data.TraySets;

internal sealed class StandingConfiguration : IEntityTypeConfiguration<Standing>
{
    public void Configure(EntityTypeBuilder<Standing> builder)
    {
        builder.ToTable("standings");
        builder.HasIndex(standing => standing.TraySetId);
        builder.HasIndex(standing => new { standing.SiteId, standing.BenchId });
        builder.HasOne<TraySet>().WithMany().HasForeignKey(standing => standing.TraySetId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Bench>().WithMany().HasForeignKey(standing => standing.BenchId).OnDelete(DeleteBehavior.Restrict);
    }
}
