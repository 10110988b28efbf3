using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.Tasks;

namespace Nursery.Data.Tasks;

internal sealed class RoundTaskConfiguration : IEntityTypeConfiguration<RoundTask>
{
    public void Configure(EntityTypeBuilder<RoundTask> builder)
    {
        builder.ToTable("tasks", table => table.HasCheckConstraint(
            "ck_tasks_one_subject", "num_nonnulls(batch_id, bench_id, house_id) = 1"));
        builder.Property(task => task.SubjectId).HasComputedColumnSql("coalesce(batch_id, bench_id, house_id)", stored: true);
        builder.HasIndex(task => new { task.SubjectId, task.Kind, task.Occurrence }).IsUnique();
        builder.HasIndex(task => new { task.SiteId, task.State, task.DueOn });
        builder.HasIndex(task => new { task.SubjectId, task.Kind })
            .IsUnique()
            .HasDatabaseName("ux_tasks_one_open")
            .HasFilter("state = 'Open'");
        builder.HasIndex(task => task.BenchId).HasFilter("bench_id IS NOT NULL");
        builder.HasIndex(task => task.HouseId).HasFilter("house_id IS NOT NULL");
        builder.Property(task => task.Why).HasMaxLength(500);
        builder.HasOne<Batch>().WithMany().HasForeignKey(task => task.BatchId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<Bench>().WithMany().HasForeignKey(task => task.BenchId).OnDelete(DeleteBehavior.Restrict);
        builder.HasOne<House>().WithMany().HasForeignKey(task => task.HouseId).OnDelete(DeleteBehavior.Restrict);
    }
}
