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
        builder.Property(site => site.Latitude).HasPrecision(7, 4);
        builder.Property(site => site.Longitude).HasPrecision(7, 4);
        builder.Property(site => site.KwhPrice).HasPrecision(9, 3);
        builder.Property(site => site.FeedNitrogenPercent).HasPrecision(5, 2);
        builder.Ignore(site => site.Zone);
        builder.Ignore(site => site.WorkWeek);
        builder.Property(row => row.Version).IsConcurrencyToken();
    }
}
