using Microsoft.EntityFrameworkCore;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Rounds;

/// <summary>A batch whose stored state is not what its ledger says.</summary>
public sealed record StateDifference(string BatchCode, BatchState Stored, BatchState Folded);

/// <summary>Folds every batch of the site anew and tells where the stored state differed; the ledger wins.</summary>
public sealed class RebuildStates(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<IReadOnlyList<StateDifference>> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Admin);
        await using var reading = await databases.CreateDbContextAsync(cancellation);
        var ids = await reading.Batches.Where(batch => batch.SiteId == actor.SiteId)
            .OrderBy(batch => batch.Id).Select(batch => batch.Id).ToListAsync(cancellation);
        var differences = new List<StateDifference>();
        foreach (var id in ids)
        {
            var difference = await databases.RunAsync(
                async database =>
                {
                    var site = await database.SiteOfAsync(actor, cancellation);
                    var batches = await database.LockBatchesAsync([id], cancellation);
                    var stored = batches[0].State;

                    // Set first: seed moves in and out of stock by what was sown, never by what a wrong column said.
                    batches[0].State = BatchStory.Fold((await BatchLedger.LoadAsync(database, [id], [], cancellation)).Of(id));
                    var traySets = await database.TrayShares.Where(share => share.BatchId == id)
                        .Select(share => share.TraySetId).ToListAsync(cancellation);
                    await BatchRefold.RunAsync(database, batches, traySets, site.Today(time), time, cancellation);
                    return stored == batches[0].State ? null : new StateDifference(batches[0].Code, stored, batches[0].State);
                },
                cancellation);
            if (difference is not null)
            {
                differences.Add(difference);
            }
        }

        await PlacesAsync(reading, actor, cancellation);
        return differences;
    }

    /// <summary>The tasks of benches and houses, once what stands there is right.</summary>
    private async Task PlacesAsync(NurseryDbContext reading, Actor actor, CancellationToken cancellation)
    {
        var site = await reading.SiteOfAsync(actor, cancellation);
        var benches = await reading.Benches.AsNoTracking().Where(bench => bench.SiteId == site.Id).ToListAsync(cancellation);
        var houses = await reading.Houses.AsNoTracking().Where(house => house.SiteId == site.Id).ToListAsync(cancellation);
        foreach (var place in benches.Select(TaskSubject.Of).Concat(houses.Select(TaskSubject.Of)))
        {
            await databases.RunAsync(
                async database =>
                {
                    await PlaceRefold.RunAsync(database, place, site.Today(time), time, cancellation);
                    return true;
                },
                cancellation);
        }
    }
}
