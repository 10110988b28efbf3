using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.People;

namespace Nursery.Application.Start;

/// <summary>How far a new nursery is on its way to the first sowing.</summary>
/// <param name="House">There is a germination bench with a heat zone, and a growing bench.</param>
/// <param name="Varieties">In use.</param>
/// <param name="SeedLots">In use.</param>
/// <param name="OrderLines">In all.</param>
/// <param name="OpenLines">With plants no batch is meant for.</param>
/// <param name="Batches">Planned.</param>
/// <param name="Placed">Planned batches that hold spaces.</param>
public sealed record FirstSteps(bool House, int Varieties, int SeedLots, int OrderLines, int OpenLines, int Batches, int Placed);

internal static class FirstStepsQuery
{
    /// <summary>Null once anything was sown: then the nursery runs, and what is missing is told where it is missing.</summary>
    public static async Task<FirstSteps?> LoadAsync(NurseryDbContext database, Actor actor, CancellationToken cancellation)
    {
        var site = actor.SiteId;
        if (await database.Batches.AnyAsync(batch => batch.SiteId == site && batch.State.SownOn != null, cancellation))
        {
            return null;
        }

        var planned = database.Batches.Where(batch => batch.SiteId == site && batch.State.Stage == BatchStage.Planned);
        var lines = database.OrderLines.Where(line => line.SiteId == site);
        return new FirstSteps(
            await database.HeatZones.AnyAsync(zone => zone.SiteId == site, cancellation)
                && await database.Benches.AnyAsync(
                    bench => bench.SiteId == site && bench.RetiredOn == null && bench.Kind == BenchKind.Growing, cancellation),
            await database.Varieties.CountAsync(row => row.RetiredOn == null, cancellation),
            await database.SeedLots.CountAsync(row => row.RetiredOn == null, cancellation),
            await lines.CountAsync(cancellation),
            await lines.CountAsync(
                line => line.Plants > database.Allocations.Where(row => row.OrderLineId == line.Id).Sum(row => row.Plants), cancellation),
            await planned.CountAsync(cancellation),
            await planned.CountAsync(
                batch => database.TrayShares.Any(share => share.BatchId == batch.Id
                    && database.Reservations.Any(row => row.TraySetId == share.TraySetId)),
                cancellation));
    }
}
