using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Transactions;

internal static class LedgerWriting
{
    /// <summary>Adds an entry the product itself writes (planned, reserved, imported …), now.</summary>
    public static LedgerEntry Write(
        this NurseryDbContext database,
        Site site,
        Actor actor,
        TimeProvider time,
        EntryValue value,
        Id<Batch>? batch = null,
        Id<TraySet>? traySet = null,
        Id<Bench>? bench = null,
        Id<SeedLot>? lot = null)
    {
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var entry = new LedgerEntry
        {
            Id = NewId.Of<LedgerEntry>(time),
            SiteId = site.Id,
            BatchId = batch,
            TraySetId = traySet,
            BenchId = bench,
            LotId = lot,
            WhoId = actor.Id,
            WhoName = actor.Name,
            Device = actor.Device,
            HappenedAt = now,
            RecordedAt = now,
            Day = site.DayOf(now),
            Kind = value.Kind,
            Value = value,
        };
        database.Ledger.Add(entry);
        return entry;
    }

    public static Task<Site> SiteOfAsync(this NurseryDbContext database, Actor actor, CancellationToken cancellation) =>
        database.Sites.SingleAsync(site => site.Id == actor.SiteId, cancellation);
}
