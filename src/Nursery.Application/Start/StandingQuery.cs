using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Start;

/// <summary>A batch where it stands: one row for each bench and each of its tray sets there.</summary>
/// <remarks>Init properties, not a constructor: EF sees through those, so callers can filter by them.</remarks>
internal sealed record StandingRow
{
    public required Standing Standing { get; init; }
    public required Bench Bench { get; init; }
    public required Batch Batch { get; init; }
    public required Variety Variety { get; init; }
    public required Crop Crop { get; init; }
}

internal static class StandingQuery
{
    public static IQueryable<StandingRow> StandingRows(this NurseryDbContext database, Id<Site> siteId) =>
        from standing in database.Standings
        join bench in database.Benches on standing.BenchId equals bench.Id
        join share in database.TrayShares on standing.TraySetId equals share.TraySetId
        join batch in database.Batches on share.BatchId equals batch.Id
        join variety in database.Varieties on batch.VarietyId equals variety.Id
        join crop in database.Crops on variety.CropId equals crop.Id
        where standing.SiteId == siteId
        select new StandingRow { Standing = standing, Bench = bench, Batch = batch, Variety = variety, Crop = crop };

    /// <summary>What grows on heat: sown, not taken off, not gone.</summary>
    public static IQueryable<StandingRow> OnHeat(this IQueryable<StandingRow> rows) => rows.Where(row =>
        row.Bench.Kind == BenchKind.Germination
        && row.Batch.State.SownOn != null
        && row.Batch.State.OffHeatOn == null
        && row.Batch.State.Stage != BatchStage.HandedOver
        && row.Batch.State.Stage != BatchStage.Discarded);
}
