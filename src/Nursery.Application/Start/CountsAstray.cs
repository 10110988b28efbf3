using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Computed;
using Nursery.Application.Rounds;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Domain.Sites;

namespace Nursery.Application.Start;

/// <summary>A batch on heat whose last count lies below what nine in ten batches would have had up that day; shares of cells, 0–1.</summary>
public sealed record CountAstray(
    Guid BatchId, string BatchCode, string CropName, string VarietyName, LocalDate CountedOn, decimal Up, double Low, double High, How How);

internal static class CountsAstray
{
    public static async Task<IReadOnlyList<CountAstray>> LoadAsync(
        NurseryDbContext database, Site site, Actor actor, LocalDate today, CancellationToken cancellation)
    {
        var rows = await (
            from row in database.StandingRows(actor.SiteId).OnHeat()
            join lot in database.SeedLots on row.Batch.LotId equals lot.Id
            where row.Batch.State.CountedOn != null && row.Batch.State.CellsUp != null
            select new { batch = row.Batch, variety = row.Variety, crop = row.Crop, lot, Bench = row.Bench.Code, row.Standing.Spaces })
            .AsNoTracking().ToListAsync(cancellation);
        var expected = await ExpectedEmergence.LoadAsync(database, site, today, cancellation);
        return
        [
            .. rows.DistinctBy(row => row.batch.Id)
                .Select(row => (row, Up: (decimal)row.batch.State.CellsUp!.Value / Math.Max(1, row.batch.State.CellsSown),
                    Share: expected.Of(row.batch, row.crop, row.lot, row.Bench, row.Spaces?.First, row.batch.State.CountedOn!.Value)))
                .Where(row => row.Share is { } share && (double)row.Up < share.Low)
                .OrderBy(row => (double)row.Up - row.Share!.Low).ThenBy(row => row.row.batch.Code, StringComparer.Ordinal)
                .Select(row => new CountAstray(
                    row.row.batch.Id.Value, row.row.batch.Code, row.row.crop.Name, row.row.variety.Name,
                    row.row.batch.State.CountedOn!.Value, row.Up, row.Share!.Low, row.Share.High, row.Share.How)),
        ];
    }
}
