using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>Makes where tray sets stand what their ledger says. The states of their batches are stored already.</summary>
internal static class StandingRefold
{
    /// <returns>The benches on which that changed something.</returns>
    public static async Task<IReadOnlyCollection<Id<Bench>>> RunAsync(
        NurseryDbContext database, IReadOnlyCollection<Id<TraySet>> ids, BatchLedger ledger, CancellationToken cancellation)
    {
        if (ids.Count == 0)
        {
            return [];
        }

        var traySets = await database.TraySets.AsNoTracking().Where(set => ids.Contains(set.Id)).ToListAsync(cancellation);
        var stages = (await (
            from share in database.TrayShares
            join batch in database.Batches on share.BatchId equals batch.Id
            where ids.Contains(share.TraySetId)
            select new { share.TraySetId, batch.State.Stage }).ToListAsync(cancellation)).ToLookup(row => row.TraySetId, row => row.Stage);
        var stored = (await database.Standings.AsNoTracking().Where(row => ids.Contains(row.TraySetId)).ToListAsync(cancellation))
            .ToLookup(row => row.TraySetId);
        var changed = new List<Id<TraySet>>();
        var benches = new HashSet<Id<Bench>>();
        foreach (var traySet in traySets)
        {
            var gone = stages[traySet.Id].All(stage => stage is BatchStage.HandedOver or BatchStage.Discarded or BatchStage.Planned);
            var standing = gone ? [] : TraySetStory.Fold(traySet, ledger.PlacesOf(traySet.Id));

            // A standing's id comes from its entry, which never changes, and its first tray: with its trays the rest is the same too.
            if (!standing.Select(row => (row.Id, row.Trays)).ToHashSet().SetEquals(stored[traySet.Id].Select(row => (row.Id, row.Trays))))
            {
                changed.Add(traySet.Id);
                benches.UnionWith(stored[traySet.Id].Concat(standing).Select(row => row.BenchId));
                database.Standings.AddRange(standing);
            }
        }

        if (changed.Count > 0)
        {
            await database.Standings.Where(row => changed.Contains(row.TraySetId)).ExecuteDeleteAsync(cancellation);
            await database.SaveChangesAsync(cancellation);
            foreach (var row in database.ChangeTracker.Entries<Standing>().ToList())
            {
                row.State = EntityState.Detached;
            }
        }

        return benches;
    }
}
