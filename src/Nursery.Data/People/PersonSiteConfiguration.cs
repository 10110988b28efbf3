using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Sites;

namespace Nursery.Data.People;

internal sealed class PersonSiteConfiguration : IEntityTypeConfiguration<PersonSite>
{
    public void Configure(EntityTypeBuilder<PersonSite> builder)
    {
        builder.ToTable("person_sites");
        builder.HasKey(row => new { row.PersonId, row.SiteId });
        builder.HasOne<Person>().WithMany().HasForeignKey(row => row.PersonId).OnDelete(DeleteBehavior.Cascade);
        builder.HasOne<Site>().WithMany().HasForeignKey(row => row.SiteId).OnDelete(DeleteBehavior.Restrict);
    }
}
