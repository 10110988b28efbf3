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
            from batch in database.Batches.Where(row => row.Id == task.BatchId).DefaultIfEmpty()
            from variety in database.Varieties.Where(row => row.Id == batch.VarietyId).DefaultIfEmpty()
            from crop in database.Crops.Where(row => row.Id == variety.CropId).DefaultIfEmpty()
            from bench in database.Benches.Where(row => row.Id == task.BenchId).DefaultIfEmpty()
            from house in database.Houses.Where(row => row.Id == task.HouseId).DefaultIfEmpty()
            where task.SiteId == actor.SiteId
            select new { task, Batch = batch.Code, Variety = variety.Name, Crop = crop.Name, Bench = bench.Code, House = house.Code })
            .AsNoTracking().ToListAsync(cancellation);
        var lines = rows.OrderBy(row => row.task.DueOn)
            .ThenBy(row => row.task.Kind)
            .ThenBy(row => row.Batch, StringComparer.Ordinal)
            .ThenBy(row => row.Bench, StringComparer.Ordinal)
            .ThenBy(row => row.House, StringComparer.Ordinal)
            .ThenBy(row => row.task.Occurrence)
            .Select(row => CsvLine.Of(
                row.task.Id.Value, row.task.Kind, row.Batch, row.Crop, row.Variety, row.Bench, row.House, row.task.Occurrence, row.task.DueOn, row.task.State,
                row.task.DoneOn, row.task.DoneBy, row.task.Why))
            .Prepend(CsvLine.Of("id", "kind", "batch", "crop", "variety", "bench", "house", "occurrence", "due_on", "state", "done_on", "done_by", "why"));
        return Encoding.UTF8.GetBytes(string.Concat(lines));
    }
}
