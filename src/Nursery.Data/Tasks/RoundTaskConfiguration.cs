using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;

namespace Nursery.Data.Tasks;

internal sealed class RoundTaskConfiguration : IEntityTypeConfiguration<RoundTask>
{
    public void Configure(EntityTypeBuilder<RoundTask> builder)
    {
        builder.ToTable("tasks");
        builder.HasIndex(task => new { task.Kind, task.BatchId, task.Occurrence }).IsUnique();
        builder.HasIndex(task => new { task.SiteId, task.State, task.DueOn });
        builder.HasIndex(task => new { task.Kind, task.BatchId })
            .IsUnique()
            .HasDatabaseName("ux_tasks_one_open")
            .HasFilter("state = 'Open'");
        builder.Property(task => task.Why).HasMaxLength(500);
        builder.HasOne<Batch>().WithMany().HasForeignKey(task => task.BatchId).OnDelete(DeleteBehavior.Restrict);
    }
}
