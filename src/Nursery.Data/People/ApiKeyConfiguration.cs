using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Data.People;

internal sealed class ApiKeyConfiguration : IEntityTypeConfiguration<ApiKey>
{
    public void Configure(EntityTypeBuilder<ApiKey> builder)
    {
        builder.ToTable("api_keys");
        builder.HasIndex(key => key.SecretHash).IsUnique();
        builder.Property(key => key.Scopes)
            .HasConversion(
                scopes => scopes.Select(scope => scope.ToString()).ToArray(),
                names => names.Select(name => Enum.Parse<Right>(name)).ToArray(),
                new ValueComparer<Right[]>(
                    (left, right) => left!.SequenceEqual(right!),
                    scopes => scopes.Aggregate(0, (hash, scope) => HashCode.Combine(hash, scope)),
                    scopes => scopes.ToArray()));
        builder.HasOne<Site>().WithMany().HasForeignKey(key => key.SiteId).OnDelete(DeleteBehavior.Restrict);
    }
}
