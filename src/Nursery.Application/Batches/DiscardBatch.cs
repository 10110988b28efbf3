using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Batches;

/// <summary>A batch is given up, for a reason of 1–200 characters.</summary>
public sealed record DiscardBatchRequest(Guid EntryId, Guid BatchId, string Reason);

/// <summary>Gives a batch up: its spaces are free from today, its tasks go, its story stays. Undoing the entry brings the batch
/// back, not its spaces: others may have them by then.</summary>
public sealed class DiscardBatch(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="EntryDiffers">The entry's id stands for something else already.</exception>
    /// <exception cref="BatchClosed">It is discarded or handed over.</exception>
    public Task<EntryOutcome> HandleAsync(DiscardBatchRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => DiscardAsync(database, request, actor, cancellation), cancellation);
    }

    private async Task<EntryOutcome> DiscardAsync(
        NurseryDbContext database, DiscardBatchRequest request, Actor actor, CancellationToken cancellation)
    {
        var reason = request.Reason.Trim();
        if (reason.Length is 0 or > 200)
        {
            throw new InvalidFields("reason", request.Reason, "1–200 characters");
        }

        var id = new Id<LedgerEntry>(request.EntryId);
        if (await database.Ledger.AsNoTracking().SingleOrDefaultAsync(entry => entry.Id == id, cancellation) is { } known)
        {
            return known.SiteId == actor.SiteId && known.BatchId?.Value == request.BatchId && known.Value == new Discarded(reason)
                ? EntryOutcome.Repeated
                : throw new EntryDiffers(request.EntryId);
        }

        var site = await database.SiteOfAsync(actor, cancellation);
        var batches = await database.LockSharingAsync(new Id<Batch>(request.BatchId), cancellation);
        var batch = batches.SingleOrDefault(row => row.Id.Value == request.BatchId && row.SiteId == actor.SiteId)
            ?? throw new NotFound("batch", "id", request.BatchId.ToString());
        if (batch.State.Stage is BatchStage.Discarded or BatchStage.HandedOver)
        {
            throw new BatchClosed(batch.Code, batch.State.Stage == BatchStage.Discarded ? "discarded" : "handed over");
        }

        var traySets = await database.TrayShares.Where(share => share.BatchId == batch.Id)
            .Select(share => share.TraySetId).ToListAsync(cancellation);
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var draft = new EntryDraft(site, actor, id, now, now, null);
        database.Ledger.Add(draft.Entry(new Discarded(reason), batch.Id, traySets[0]));
        await database.SaveChangesAsync(cancellation);
        var today = site.Today(time);
        await BatchRefold.RunAsync(database, batches, traySets, today, time, cancellation);
        await FreeSpacesAsync(database, batch, traySets, today, actor, cancellation);
        return EntryOutcome.Applied;
    }

    /// <summary>Trays another batch still lies in keep their place.</summary>
    private async Task FreeSpacesAsync(
        NurseryDbContext database,
        Batch batch,
        List<Id<Domain.TraySets.TraySet>> traySets,
        LocalDate today,
        Actor actor,
        CancellationToken cancellation)
    {
        var empty = await database.TraySets
            .Where(set => traySets.Contains(set.Id) && !database.TrayShares
                .Where(share => share.TraySetId == set.Id)
                .Any(share => database.Batches.Any(row => row.Id == share.BatchId && row.State.Stage != BatchStage.Discarded)))
            .Select(set => set.Id).ToListAsync(cancellation);
        var benchIds = await database.Reservations.Where(row => empty.Contains(row.TraySetId))
            .Select(row => row.BenchId).ToListAsync(cancellation);
        await database.LockBenchesAsync(benchIds, cancellation);
        var rows = await database.Reservations
            .Where(row => empty.Contains(row.TraySetId) && row.Days.End >= today).ToListAsync(cancellation);
        if (rows.Count == 0)
        {
            return;
        }

        var change = new PlanChange(database, await database.SiteOfAsync(actor, cancellation), actor, time);
        foreach (var row in rows)
        {
            change.EndOn(row, LocalDate.Max(today, row.Days.Start));
        }

        await change.SaveAsync($"{batch.Code}: given up", cancellation);
    }
}
