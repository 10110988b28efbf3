using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Rounds;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Batches;

/// <summary>A batch was sown on a day, not later than today, from a lot of its variety; without a lot code, from the one planned.</summary>
public sealed record SowBatchRequest(Guid EntryId, string? LotCode, LocalDate On);

/// <summary>Reports a sowing with its lot: takes the seed from stock, puts the trays where the plan has them, closes the sow task.</summary>
public sealed class SowBatch(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="NotFound">No such batch.</exception>
    /// <exception cref="AlreadySown">It was sown by another entry.</exception>
    /// <exception cref="StockTooLow">The lot has not seeds enough.</exception>
    public Task<EntryOutcome> HandleAsync(
        Guid batchId, SowBatchRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Ledger);
        return databases.RunAsync(database => SowAsync(database, batchId, request, actor, cancellation), cancellation);
    }

    private async Task<EntryOutcome> SowAsync(
        NurseryDbContext database, Guid batchId, SowBatchRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        await EntryLocks.TakeAsync(database, [request.EntryId], cancellation);
        var batches = await database.LockSharingAsync(new Id<Batch>(batchId), cancellation);
        var batch = batches.SingleOrDefault(row => row.Id.Value == batchId && row.SiteId == actor.SiteId)
            ?? throw new NotFound("batch", "id", batchId.ToString());
        var sent = JsonSerializer.Serialize(
            new { kind = "sown", batchId, lotCode = request.LotCode, on = LocalDatePattern.Iso.Format(request.On) });
        if (await IsRepeatAsync(database, request.EntryId, sent, cancellation))
        {
            return EntryOutcome.Repeated;
        }

        var today = site.Today(time);
        if (request.On > today)
        {
            throw new InvalidFields(
                "on", LocalDatePattern.Iso.Format(request.On),
                string.Create(CultureInfo.InvariantCulture, $"today ({LocalDatePattern.Iso.Format(today)}) or earlier"));
        }

        if (batch.State.Stage == BatchStage.Discarded)
        {
            throw new BatchClosed(batch.Code, "discarded");
        }

        if (batch.State.SownOn is not null)
        {
            throw new AlreadySown(batch.Code);
        }

        var lot = await LotAsync(database, batch, request.LotCode, cancellation);
        var traySet = await (
            from share in database.TrayShares
            join set in database.TraySets on share.TraySetId equals set.Id
            where share.BatchId == batch.Id
            select set).FirstAsync(cancellation);
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var happenedAt = request.On == today ? now : site.Zone.AtStartOfDay(request.On).ToInstant();
        var draft = new EntryDraft(
            site, actor, new Id<LedgerEntry>(request.EntryId), happenedAt, now, sent, request.On);
        await Sowing.AddAsync(database, draft, batch, traySet, lot, asConsequence: false, cancellation);
        batch.LotId = lot;
        await database.SaveChangesAsync(cancellation);
        await BatchRefold.RunAsync(database, batches, [traySet.Id], today, time, cancellation);
        return EntryOutcome.Applied;
    }

    private static async Task<Id<SeedLot>> LotAsync(
        NurseryDbContext database, Batch batch, string? lotCode, CancellationToken cancellation)
    {
        if (lotCode is null)
        {
            return batch.LotId ?? throw new LotMissing(batch.Code);
        }

        var lot = await database.SeedLots.SingleOrDefaultAsync(row => row.Code == lotCode && row.RetiredOn == null, cancellation);
        return lot?.VarietyId == batch.VarietyId
            ? lot.Id
            : throw new InvalidFields("lotCode", lotCode, $"the code of a seed lot of the variety of batch {batch.Code}");
    }

    private static async Task<bool> IsRepeatAsync(
        NurseryDbContext database, Guid entryId, string sent, CancellationToken cancellation)
    {
        var id = new Id<LedgerEntry>(entryId);
        var known = await database.Ledger.AsNoTracking().SingleOrDefaultAsync(entry => entry.Id == id, cancellation);
        return known is not null
            && (known.Sent is not null && JsonNode.DeepEquals(JsonNode.Parse(known.Sent), JsonNode.Parse(sent))
                ? true
                : throw new EntryDiffers(entryId));
    }
}
