using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Start;

/// <summary>A batch that stands on heat after the day the plan wanted it off; germination 0–1, null before the first count.</summary>
public sealed record LongOnHeat(
    Guid BatchId, string BatchCode, string CropName, string VarietyName, string BenchCode, LocalDate PlannedOff, decimal? EmergedFraction);

internal static class HeatOverrun
{
    public static async Task<IReadOnlyList<LongOnHeat>> LoadAsync(
        NurseryDbContext database, Actor actor, LocalDate today, CancellationToken cancellation)
    {
        var rows = await database.StandingRows(actor.SiteId).OnHeat().AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.DistinctBy(row => (row.Batch.Id, row.Bench.Id))
                .Select(row => new LongOnHeat(
                    row.Batch.Id.Value, row.Batch.Code, row.Crop.Name, row.Variety.Name, row.Bench.Code,
                    row.Batch.State.SownOn!.Value.PlusDays(row.Crop.PlannedHeatDays), row.Batch.State.EmergedFraction))
                .Where(row => row.PlannedOff < today)
                .OrderBy(row => row.PlannedOff).ThenBy(row => row.BatchCode, StringComparer.Ordinal),
        ];
    }
}
