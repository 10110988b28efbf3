using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Tasks;

/// <summary>Makes the tasks of benches and houses what the rules ask for, from what stands there.</summary>
internal static class PlaceTasks
{
    /// <summary>Of some benches, and of the houses they are in. Taken last in a transaction: the places are locked until it ends.</summary>
    public static async Task SyncAsync(
        NurseryDbContext database, IReadOnlyCollection<Id<Bench>> benches, LocalDate today, TimeProvider time, CancellationToken cancellation)
    {
        if (benches.Count > 0)
        {
            var houses = await database.Benches.Where(bench => benches.Contains(bench.Id))
                .Select(bench => bench.HouseId).Distinct().ToListAsync(cancellation);
            await SyncAsync(database, benches, houses, today, time, cancellation);
        }
    }

    /// <summary>Of these benches and houses only.</summary>
    public static async Task SyncAsync(
        NurseryDbContext database,
        IReadOnlyCollection<Id<Bench>> benchIds,
        IReadOnlyCollection<Id<House>> houseIds,
        LocalDate today,
        TimeProvider time,
        CancellationToken cancellation)
    {
        Guid[] subjects = [.. benchIds.Select(id => id.Value), .. houseIds.Select(id => id.Value)];
        await LockAsync(database, subjects, cancellation);
        var facts = await FactsAsync(
            database,
            await database.Benches.AsNoTracking().Where(bench => benchIds.Contains(bench.Id)).ToListAsync(cancellation),
            await database.Houses.AsNoTracking().Where(house => houseIds.Contains(house.Id)).ToListAsync(cancellation),
            today,
            cancellation);
        await TaskWriting.WriteAsync(
            database,
            subjects,
            [.. facts.SelectMany(place => TaskRules.Wanted(place).Select(task => new WantedTask(place.Subject, task)))],
            time,
            cancellation);
    }

    /// <summary>All benches and houses of a site as the rules see them.</summary>
    public static async Task<IReadOnlyList<PlaceFacts>> FactsAsync(
        NurseryDbContext database, Id<Site> site, LocalDate today, CancellationToken cancellation) => await FactsAsync(
            database,
            await database.Benches.AsNoTracking().Where(bench => bench.SiteId == site).ToListAsync(cancellation),
            await database.Houses.AsNoTracking().Where(house => house.SiteId == site).ToListAsync(cancellation),
            today,
            cancellation);

    /// <summary>Keeps the tasks of places to this transaction until it ends. Not by their rows: whoever reserves locks those first, and
    /// whoever reports comes here last.</summary>
    public static Task LockAsync(NurseryDbContext database, IEnumerable<Guid> subjects, CancellationToken cancellation) =>
        EntryLocks.TakeAsync(database, subjects, cancellation);

    private static async Task<IReadOnlyList<PlaceFacts>> FactsAsync(
        NurseryDbContext database, List<Bench> benches, List<House> houses, LocalDate today, CancellationToken cancellation)
    {
        var houseIds = benches.Select(bench => bench.HouseId).Union(houses.Select(house => house.Id)).ToList();
        var standing = await StandingAsync(database, houseIds, cancellation);
        List<Guid> subjects = [.. benches.Select(bench => bench.Id.Value), .. houses.Select(house => house.Id.Value)];
        var closed = await ClosedTasks.LoadAsync(database, subjects, cancellation);
        return
        [
            .. benches.Select(bench =>
                Facts(TaskSubject.Of(bench), bench.Name, standing.Where(row => row.Bench == bench.Id), closed, today)),
            .. houses.Select(house =>
                Facts(TaskSubject.Of(house), house.Name, standing.Where(row => row.House == house.Id), closed, today)),
        ];
    }

    private static async Task<List<Stand>> StandingAsync(
        NurseryDbContext database, List<Id<House>> houses, CancellationToken cancellation) => await (
        from row in database.Standings
        join bench in database.Benches on row.BenchId equals bench.Id
        join share in database.TrayShares on row.TraySetId equals share.TraySetId
        where houses.Contains(bench.HouseId)
        select new Stand(bench.HouseId, bench.Id, row.Id, row.Trays, row.Since, share.BatchId)).ToListAsync(cancellation);

    private static PlaceFacts Facts(
        TaskSubject subject,
        string name,
        IEnumerable<Stand> standing,
        ILookup<Guid, (TaskKind Kind, ClosedKind Closed)> closed,
        LocalDate today)
    {
        var here = standing.ToList();
        var done = closed[subject.Id].Select(kind => kind.Closed).SingleOrDefault(ClosedKind.None);
        return new PlaceFacts(
            subject,
            name,
            here.Select(row => row.Batch).Distinct().Count(),
            here.DistinctBy(row => row.Id).Sum(row => row.Trays.Count),
            here.Count == 0 ? null : here.Min(row => row.Since),
            done.LastOn,
            done.Next,
            today);
    }

    private sealed record Stand(Id<House> House, Id<Bench> Bench, Id<Standing> Id, SpaceRun Trays, LocalDate Since, Id<Batch> Batch);
}
