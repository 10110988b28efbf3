using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace Nursery.Data.Batches;

internal sealed class CodeCounterConfiguration : IEntityTypeConfiguration<CodeCounter>
{
    public void Configure(EntityTypeBuilder<CodeCounter> builder)
    {
        builder.ToTable("code_counters");
        builder.HasKey(counter => new { counter.SiteId, counter.Prefix });
    }
}
