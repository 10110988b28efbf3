using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>A batch with what it is made of.</summary>
/// <remarks>Init properties, not a constructor: EF sees through those, so callers can filter and sort by them.</remarks>
internal sealed record BatchRow
{
    public required Batch Batch { get; init; }
    public required Variety Variety { get; init; }
    public required Crop Crop { get; init; }
    public required SeedLot? Lot { get; init; }
    public required TraySet TraySet { get; init; }
    public required TrayShare Share { get; init; }
}

internal static class BatchQuery
{
    /// <summary>Batches of a site with their first tray set.</summary>
    public static IQueryable<BatchRow> BatchRows(this NurseryDbContext database, Id<Site> siteId) =>
        from batch in database.Batches
        join variety in database.Varieties on batch.VarietyId equals variety.Id
        join crop in database.Crops on variety.CropId equals crop.Id
        join share in database.TrayShares on batch.Id equals share.BatchId
        join traySet in database.TraySets on share.TraySetId equals traySet.Id
        from lot in database.SeedLots.Where(row => row.Id == batch.LotId).DefaultIfEmpty()
        where batch.SiteId == siteId
        select new BatchRow { Batch = batch, Variety = variety, Crop = crop, Lot = lot, TraySet = traySet, Share = share };
}
