using System.Globalization;
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
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>Some trays of a batch are thrown away.</summary>
/// <param name="EntryId">Made by the client, so that sending twice discards once.</param>
/// <param name="BatchId">The batch; when it shares its trays they are lost to all in them.</param>
/// <param name="Trays">Their numbers in the tray set.</param>
/// <param name="Cause">1–100 characters.</param>
public sealed record DiscardTraysRequest(Guid EntryId, Guid BatchId, SpaceRun Trays, string Cause);

/// <summary>Throws some trays away: their spaces are free from today, the batch goes on in the others. Undoing the entry brings
/// the trays back, not their spaces.</summary>
public sealed class DiscardTrays(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="EntryDiffers">The entry's id stands for something else already.</exception>
    /// <exception cref="NotSownYet">Planned trays are changed, not discarded.</exception>
    /// <exception cref="BatchClosed">It is discarded or handed over.</exception>
    public Task<EntryOutcome> HandleAsync(DiscardTraysRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => DiscardAsync(database, request, actor, cancellation), cancellation);
    }

    private async Task<EntryOutcome> DiscardAsync(
        NurseryDbContext database, DiscardTraysRequest request, Actor actor, CancellationToken cancellation)
    {
        var cause = request.Cause.Trim();
        new FieldChecks().Text("cause", cause, 100).Done();
        var value = new TraysDiscarded(request.Trays, cause);
        await EntryLocks.TakeAsync(database, [request.EntryId], cancellation);
        var batches = await database.LockSharingAsync(new Id<Batch>(request.BatchId), cancellation);
        var batch = batches.SingleOrDefault(row => row.Id.Value == request.BatchId && row.SiteId == actor.SiteId)
            ?? throw new NotFound("batch", "id", request.BatchId.ToString());
        var share = await database.TrayShares.SingleAsync(row => row.BatchId == batch.Id, cancellation);
        var traySet = await database.TraySets.SingleAsync(set => set.Id == share.TraySetId, cancellation);
        var id = new Id<LedgerEntry>(request.EntryId);
        if (await database.Ledger.AsNoTracking().SingleOrDefaultAsync(entry => entry.Id == id, cancellation) is { } known)
        {
            return known.SiteId == actor.SiteId && known.TraySetId == traySet.Id && known.Value == value
                ? EntryOutcome.Repeated
                : throw new EntryDiffers(request.EntryId);
        }

        await CheckAsync(database, request.Trays, batch, traySet, cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        database.Ledger.Add(new EntryDraft(site, actor, id, now, now, null).Entry(value, traySet: traySet.Id));
        await database.SaveChangesAsync(cancellation);
        await BatchRefold.RunAsync(database, batches, [traySet.Id], site.Today(time), time, cancellation);
        await FreeSpacesAsync(database, site, actor, traySet, request.Trays, cancellation);
        return EntryOutcome.Applied;
    }

    private static async Task CheckAsync(
        NurseryDbContext database, SpaceRun trays, Batch batch, TraySet traySet, CancellationToken cancellation)
    {
        if (batch.State.Stage is BatchStage.Discarded or BatchStage.HandedOver)
        {
            throw new BatchClosed(batch.Code, batch.State.Stage == BatchStage.Discarded ? "discarded" : "handed over");
        }

        if (batch.State.SownOn is null)
        {
            throw new NotSownYet(batch.Code);
        }

        var ledger = await BatchLedger.LoadAsync(database, [], [traySet.Id], cancellation);
        var entries = LedgerOrder.Effective(ledger.PlacesOf(traySet.Id));
        var left = Enumerable.Range(1, traySet.Trays).Except(TraySetStory.Discarded(traySet, entries)).ToList();
        var asked = trays.Count is > 0 and <= 10_000 ? Enumerable.Range(trays.First, trays.Count).ToList() : [];
        if (asked.Count == 0 || asked.Except(left).Any() || asked.Count == left.Count)
        {
            var numbers = left.Count == traySet.Trays
                ? new SpaceRun(1, traySet.Trays).ToString()
                : string.Join(", ", left.Select(tray => tray.ToString(CultureInfo.InvariantCulture)));
            throw new InvalidFields("trays", trays.Count > 0 ? trays.ToString() : "none", $"trays of {numbers}, not all of them: give the batch up instead");
        }
    }

    /// <summary>Trays on both sides of the discarded ones keep their spaces.</summary>
    private async Task FreeSpacesAsync(
        NurseryDbContext database, Site site, Actor actor, TraySet traySet, SpaceRun trays, CancellationToken cancellation)
    {
        var today = site.Today(time);
        var benchIds = await database.Reservations.Where(row => row.TraySetId == traySet.Id)
            .Select(row => row.BenchId).ToListAsync(cancellation);
        var benches = (await database.LockBenchesAsync(benchIds, cancellation)).ToDictionary(bench => bench.Id);
        var rows = (await database.Reservations
            .Where(row => row.TraySetId == traySet.Id && row.Days.End >= today).ToListAsync(cancellation))
            .Where(row => row.Trays.Overlaps(trays)).OrderBy(row => row.Days.Start).ThenBy(row => row.Id).ToList();
        if (rows.Count == 0)
        {
            return;
        }

        var change = new PlanChange(database, site, actor, time);
        foreach (var row in rows)
        {
            var (from, to) = (LocalDate.Max(today, row.Days.Start), row.To);
            var first = Math.Max(row.Trays.First, trays.First);
            var gone = new SpaceRun(first, Math.Min(row.Trays.Last, trays.Last) - first + 1);
            change.EndOn(row, from);
            foreach (var (stay, spaces) in MoveTrays.TraysThatStay(row, gone, traySet))
            {
                change.Hold(row, stay, benches[row.BenchId], spaces, from, to);
            }
        }

        await change.SaveAsync($"{traySet.Code}: {(trays.Count == 1 ? "tray" : "trays")} {trays} discarded", cancellation);
    }
}
