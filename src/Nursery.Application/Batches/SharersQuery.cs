using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Sowings;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.Sites;

namespace Nursery.Application.Batches;

/// <summary>A planned batch in trays of its own, and the cells its orders need of them.</summary>
internal sealed record SharerRow(BatchRow Row, int CellsNeeded)
{
    public Sharer Sharer { get; } = Sharing.Of(Row.Batch, Row.Crop, Row.Variety.Name, Row.TraySet.CellsPerTray);
}

internal static class SharersQuery
{
    /// <summary>Planned batches of a site that share trays with none.</summary>
    public static async Task<List<SharerRow>> SharersAsync(
        this NurseryDbContext database, Site site, LocalDate today, CancellationToken cancellation)
    {
        var ground = await SowingGround.LoadAsync(database, site, today, cancellation);
        var rows = await database.BatchRows(site.Id)
            .Where(row => row.Batch.State.Stage == BatchStage.Planned
                && database.TrayShares.Count(share => share.TraySetId == row.TraySet.Id) == 1)
            .ToListAsync(cancellation);
        var ids = rows.ConvertAll(row => row.Batch.Id);
        var plants = await database.Allocations.Where(row => ids.Contains(row.BatchId))
            .GroupBy(row => row.BatchId)
            .Select(group => new { group.Key, Plants = group.Sum(row => row.Plants) })
            .ToDictionaryAsync(row => row.Key, row => row.Plants, cancellation);
        return rows.ConvertAll(row => new SharerRow(row, CellsNeeded(ground, row, plants.GetValueOrDefault(row.Batch.Id))));
    }

    /// <summary>What its orders need with the chance asked for, at most what it was given; all of it when no order names it.</summary>
    private static int CellsNeeded(SowingGround ground, BatchRow row, int plants) => plants == 0
        ? row.Batch.Cells
        : Math.Min(row.Batch.Cells, ground
            .Of(new SowingWish(row.Crop, row.Lot, plants, row.TraySet.CellsPerTray, row.Batch.SowOn))
            ?.TryOf(row.Batch.SeedsPerCell)?.Cells ?? row.Batch.Cells);
}
