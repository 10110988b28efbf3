using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.Benches;
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
        var rows = await (
            from standing in database.Standings
            join bench in database.Benches on standing.BenchId equals bench.Id
            join share in database.TrayShares on standing.TraySetId equals share.TraySetId
            join batch in database.Batches on share.BatchId equals batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where standing.SiteId == actor.SiteId
                && bench.Kind == BenchKind.Germination
                && batch.State.SownOn != null
                && batch.State.OffHeatOn == null
                && batch.State.Stage != Domain.Batches.BatchStage.HandedOver
                && batch.State.Stage != Domain.Batches.BatchStage.Discarded
            select new { batch, variety, crop, Bench = bench.Code }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.DistinctBy(row => (row.batch.Id, row.Bench))
                .Select(row => new LongOnHeat(
                    row.batch.Id.Value, row.batch.Code, row.crop.Name, row.variety.Name, row.Bench,
                    row.batch.State.SownOn!.Value.PlusDays(row.crop.PlannedHeatDays), row.batch.State.EmergedFraction))
                .Where(row => row.PlannedOff < today)
                .OrderBy(row => row.PlannedOff).ThenBy(row => row.BatchCode, StringComparer.Ordinal),
        ];
    }
}
