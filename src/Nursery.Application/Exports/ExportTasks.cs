using System.Text;
using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Exports;

/// <summary>Tasks as CSV: open, done and withdrawn ones, by due day.</summary>
public sealed class ExportTasks(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<byte[]> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = await (
            from task in database.Tasks
            join batch in database.Batches on task.BatchId equals batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where task.SiteId == actor.SiteId
            select new { task, Batch = batch.Code, Variety = variety.Name, Crop = crop.Name }).AsNoTracking().ToListAsync(cancellation);
        var lines = rows.OrderBy(row => row.task.DueOn)
            .ThenBy(row => row.task.Kind)
            .ThenBy(row => row.Batch, StringComparer.Ordinal)
            .ThenBy(row => row.task.Occurrence)
            .Select(row => CsvLine.Of(
                row.task.Id.Value, row.task.Kind, row.Batch, row.Crop, row.Variety, row.task.Occurrence, row.task.DueOn, row.task.State,
                row.task.DoneOn, row.task.DoneBy, row.task.Why))
            .Prepend(CsvLine.Of("id", "kind", "batch", "crop", "variety", "occurrence", "due_on", "state", "done_on", "done_by", "why"));
        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }
}
