using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Tasks;
using Nursery.Data;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Rounds;

/// <summary>Makes the tasks of a bench or a house what its ledger says.</summary>
internal static class PlaceRefold
{
    public static async Task RunAsync(
        NurseryDbContext database, TaskSubject place, LocalDate today, TimeProvider time, CancellationToken cancellation)
    {
        await PlaceTasks.LockAsync(database, [place.Id], cancellation);
        var entries = await EntriesAsync(database, place, cancellation);
        await TaskClosing.RunAsync(database, [(place, TaskClosings.OfPlace(entries))], time, cancellation);
        await PlaceTasks.SyncAsync(
            database, place.Bench is { } bench ? [bench] : [], place.House is { } house ? [house] : [], today, time, cancellation);
    }

    private static async Task<List<LedgerEntry>> EntriesAsync(
        NurseryDbContext database, TaskSubject place, CancellationToken cancellation)
    {
        var said = await database.Ledger.AsNoTracking()
            .Where(entry => entry.SiteId == place.Site && entry.BatchId == null && entry.Kind == LedgerKind.Done
                && entry.BenchId == place.Bench && entry.HouseId == place.House)
            .ToListAsync(cancellation);
        var ids = said.ConvertAll(entry => entry.Id);
        var undos = await database.Ledger.AsNoTracking()
            .Where(entry => entry.UndoOf != null && ids.Contains(entry.UndoOf.Value) && entry.SiteId == place.Site)
            .ToListAsync(cancellation);
        return [.. said, .. undos];
    }
}
