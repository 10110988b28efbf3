using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;

namespace Nursery.Application.Batches;

/// <summary>A batch in a list. Fractions 0–1; days are the site's. Part: which rows of cells of shared trays are its own; null
/// when the trays are.</summary>
public sealed record BatchItem(
    Guid Id,
    string Code,
    string TraySetCode,
    BatchStage Stage,
    string VarietyCode,
    string VarietyName,
    string CropCode,
    string CropName,
    string? LotCode,
    int Trays,
    int CellsPerTray,
    int SeedsPerCell,
    LocalDate SowOn,
    LocalDate? SownOn,
    LocalDate ReadyOn,
    int? CountedSeeds,
    decimal? CountedUp,
    decimal? EmergedFraction,
    int LostPlants,
    int Version,
    int Cells,
    string? Part)
{
    internal static BatchItem From(BatchRow row) => new(
        row.Batch.Id.Value,
        row.Batch.Code,
        row.TraySet.Code,
        row.Batch.State.Stage,
        row.Variety.Code,
        row.Variety.Name,
        row.Crop.Code,
        row.Crop.Name,
        row.Lot?.Code,
        row.TraySet.Trays,
        row.TraySet.CellsPerTray,
        row.Batch.SeedsPerCell,
        row.Batch.SowOn,
        row.Batch.State.SownOn,
        row.Batch.ReadyOn,
        row.Batch.State.CountedSeeds,
        row.Batch.State.CountedUp,
        row.Batch.State.EmergedFraction,
        row.Batch.State.Lost,
        row.Batch.Version,
        row.Batch.Cells,
        row.Share.Part(row.TraySet));
}

public sealed class ListBatches(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<Page<BatchItem>> HandleAsync(Paging paging, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = database.BatchRows(actor.SiteId);
        if (paging.AfterId() is { } id)
        {
            var position = new Id<Batch>(id);
            rows = rows.Where(row => row.Batch.Id > position);
        }

        rows = rows.OrderBy(row => row.Batch.Id);
        var page = paging.Limit == int.MaxValue
            ? await rows.AsNoTracking().ToListAsync(cancellation)
            : await rows.AsNoTracking().Take(paging.Limit + 1).ToListAsync(cancellation);
        return Paging.ById(page.ConvertAll(BatchItem.From), paging.Limit, item => item.Id);
    }
}
