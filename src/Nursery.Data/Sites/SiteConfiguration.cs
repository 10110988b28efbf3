using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Sites;

namespace Nursery.Data.Sites;

internal sealed class SiteConfiguration : IEntityTypeConfiguration<Site>
{
    public void Configure(EntityTypeBuilder<Site> builder)
    {
        builder.ToTable("sites");
        builder.HasIndex(site => site.Code).IsUnique();
        builder.Property(site => site.Currency).HasMaxLength(3).IsFixedLength();
        builder.Ignore(site => site.Zone);
        builder.Ignore(site => site.WorkWeek);
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
