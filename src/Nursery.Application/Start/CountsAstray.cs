using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Rounds;
using Nursery.Data;
using Nursery.Domain.Benches;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Application.Start;

/// <summary>A batch on heat whose last count lies below what nine in ten batches would have had up that day; shares of cells, 0–1.</summary>
public sealed record CountAstray(
    Guid BatchId, string BatchCode, string CropName, string VarietyName, LocalDate CountedOn, decimal Up, double Low, double High);

internal static class CountsAstray
{
    public static async Task<IReadOnlyList<CountAstray>> LoadAsync(
        NurseryDbContext database, Site site, Actor actor, LocalDate today, CancellationToken cancellation)
    {
        var rows = await (
            from standing in database.Standings
            join bench in database.Benches on standing.BenchId equals bench.Id
            join share in database.TrayShares on standing.TraySetId equals share.TraySetId
            join batch in database.Batches on share.BatchId equals batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            join lot in database.SeedLots on batch.LotId equals lot.Id
            where standing.SiteId == actor.SiteId
                && bench.Kind == BenchKind.Germination
                && batch.State.CountedOn != null
                && batch.State.CellsUp != null
                && batch.State.OffHeatOn == null
            select new { batch, variety, crop, lot, Bench = bench.Code, standing.Spaces }).AsNoTracking().ToListAsync(cancellation);
        var expected = await ExpectedEmergence.LoadAsync(database, site, today, cancellation);
        return
        [
            .. rows.DistinctBy(row => row.batch.Id)
                .Select(row => (row, Up: (decimal)row.batch.State.CellsUp!.Value / Math.Max(1, row.batch.State.CellsSown),
                    Share: expected.Of(row.batch, row.variety, row.crop, row.lot, row.Bench, row.Spaces?.First, row.batch.State.CountedOn!.Value)))
                .Where(row => row.Share is { } share && (double)row.Up < share.Low)
                .OrderBy(row => (double)row.Up - row.Share!.Low).ThenBy(row => row.row.batch.Code, StringComparer.Ordinal)
                .Select(row => new CountAstray(
                    row.row.batch.Id.Value, row.row.batch.Code, row.row.crop.Name, row.row.variety.Name,
                    row.row.batch.State.CountedOn!.Value, row.Up, row.Share!.Low, row.Share.High)),
        ];
    }
}
