using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.People;

namespace Nursery.Application.Batches;

/// <summary>Planned batches whose trays hold no spaces, the next to be sown first.</summary>
public sealed class ListUnplaced(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<IReadOnlyList<BatchItem>> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var planned = await (
            from batch in database.Batches
            join share in database.TrayShares on batch.Id equals share.BatchId
            where batch.SiteId == actor.SiteId
                && batch.State.Stage == BatchStage.Planned
                && !database.Reservations.Any(row => row.TraySetId == share.TraySetId)
            select batch.Id).ToListAsync(cancellation);
        var rows = await database.BatchRows(actor.SiteId).AsNoTracking()
            .Where(row => planned.Contains(row.Batch.Id)).ToListAsync(cancellation);
        return
        [
            .. rows.DistinctBy(row => row.Batch.Id).Select(BatchItem.From)
                .OrderBy(item => item.SowOn).ThenBy(item => item.Code, StringComparer.Ordinal),
        ];
    }
}
