using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Computed;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Rounds;

/// <summary>A task of a day, with where to go. It is about a batch, or about a bench or a whole house: then what is a batch's is null.
/// House and bench are null when the trays have no place yet, the bench alone for a whole house.</summary>
public sealed record TaskItem(
    Guid Id,
    TaskKind Kind,
    string Subject,
    Guid? BatchId,
    string? BatchCode,
    string? CropName,
    string? VarietyName,
    BatchStage? Stage,
    string? TraySetCode,
    int Trays,
    int CellsPerTray,
    int SeedsPerCell,
    string? House,
    string? BenchCode,
    int? FirstSpace,
    int? LastSpace,
    LocalDate DueOn,
    TaskState State,
    string Why,
    LocalDate? DoneOn,
    string? DoneBy,
    string? LotCode = null,
    bool LotTreated = false,
    string? NextBench = null,
    Guid? DoneEntryId = null,
    PutOff? PutOff = null,
    int? NextFirstSpace = null,
    int? NextLastSpace = null)
{
    /// <summary>Planned minutes.</summary>
    public decimal Minutes { get; init; }

    /// <summary>What share of the cells should be up that day; null where that is not asked or not known.</summary>
    public ExpectedShare? Expected { get; init; }
}

/// <summary>Share of the cells, 0–1, that nine in ten batches would have between.</summary>
public sealed record ExpectedShare(double Low, double High, How How);

/// <summary>A task looked at today and not done: the last word about it.</summary>
public sealed record PutOff(Guid EntryId, string Reason, string Who);

/// <summary>The tasks of a day in walking order: due then or earlier and open, plus those done that day.</summary>
public sealed class ListTasks(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<IReadOnlyList<TaskItem>> HandleAsync(
        LocalDate? on, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var day = on ?? site.Today(time);
        var rows = await (
            from task in database.Tasks
            join batch in database.Batches on task.BatchId equals (Id<Batch>?)batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            join share in database.TrayShares on batch.Id equals share.BatchId
            join traySet in database.TraySets on share.TraySetId equals traySet.Id
            from lot in database.SeedLots.Where(lot => lot.Id == batch.LotId).DefaultIfEmpty()
            where task.SiteId == actor.SiteId
                && ((task.State == TaskState.Open && task.DueOn <= day) || (task.State == TaskState.Done && task.DoneOn == day))
            select new { task, batch, variety, crop, traySet, lot }).AsNoTracking().ToListAsync(cancellation);
        var places = await PlacesAsync(database, [.. rows.Select(row => row.traySet.Id).Distinct()], day, cancellation);
        foreach (var gone in rows.Where(row => row.task.Kind == TaskKind.ClearBench).Select(row => row.traySet))
        {
            if (await LastPlaceAsync(database, gone, cancellation) is { } last)
            {
                places[gone.Id] = last;
            }
        }

        var said = await TaskSayings.LoadAsync(database, actor.SiteId, day, cancellation);
        var expected = await ExpectedEmergence.LoadAsync(database, site, day, cancellation);
        var ofBatches = rows
                .Select(row => (row, Place: places.GetValueOrDefault(row.traySet.Id)))
                .Select(pair => new WalkedTask(pair.Place?.HouseOrder, pair.Place?.BenchOrder, new TaskItem(
                    pair.row.task.Id.Value,
                    pair.row.task.Kind,
                    $"{pair.row.crop.Name} ‘{pair.row.variety.Name}’",
                    pair.row.batch.Id.Value,
                    pair.row.batch.Code,
                    pair.row.crop.Name,
                    pair.row.variety.Name,
                    pair.row.batch.State.Stage,
                    pair.row.traySet.Code,
                    pair.row.traySet.Trays,
                    pair.row.traySet.CellsPerTray,
                    pair.row.batch.SeedsPerCell,
                    pair.Place?.House,
                    pair.Place?.Bench,
                    pair.Place?.Spaces?.First,
                    pair.Place?.Spaces?.Last,
                    pair.row.task.DueOn,
                    pair.row.task.State,
                    pair.row.task.Why,
                    pair.row.task.DoneOn,
                    pair.row.task.DoneBy,
                    pair.row.lot?.Code,
                    pair.row.lot?.Treated ?? false,
                    pair.Place?.Next,
                    pair.row.task.State == TaskState.Done ? said.DoneOf(pair.row.task)?.Id.Value : null,
                    pair.row.task.State == TaskState.Open ? said.PutOffOf(pair.row.task) : null,
                    pair.Place?.NextSpaces?.First,
                    pair.Place?.NextSpaces?.Last)
                {
                    Minutes = TaskMinutes.Of(pair.row.task.Kind, pair.row.traySet.Trays, pair.row.batch.Cells),
                    Expected = pair.row.task.Kind is TaskKind.EmergenceCheck or TaskKind.MoveOffHeat
                        ? expected.Of(pair.row.batch, pair.row.crop, pair.row.lot, pair.Place?.Bench, pair.Place?.Spaces?.First, day)
                        : null,
                }));
        return
        [
            .. ofBatches.Concat(await PlaceTaskItems.LoadAsync(database, day, said, actor, cancellation))
                .OrderBy(walked => walked.HouseOrder ?? int.MaxValue)
                .ThenBy(walked => walked.BenchOrder ?? int.MaxValue)
                .ThenBy(walked => walked.Item.Kind)
                .ThenBy(walked => walked.Item.FirstSpace)
                .ThenBy(walked => walked.Item.BatchCode, StringComparer.Ordinal)
                .Select(walked => walked.Item),
        ];
    }

    /// <summary>Where trays stand in fact; before they stand anywhere, where the plan has them first from the day on.</summary>
    private static async Task<Dictionary<Id<TraySet>, TaskPlace>> PlacesAsync(
        NurseryDbContext database, List<Id<TraySet>> traySets, LocalDate day, CancellationToken cancellation)
    {
        var planned = await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where traySets.Contains(reservation.TraySetId)
            select new
            {
                reservation.TraySetId,
                reservation.Days,
                bench.Kind,
                Place = new TaskPlace(house.Code, house.RoundOrder, bench.Code, bench.RoundOrder, reservation.Spaces, null),
            }).AsNoTracking().ToListAsync(cancellation);
        var standing = await (
            from place in database.Standings
            join bench in database.Benches on place.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where traySets.Contains(place.TraySetId)
            select new
            {
                place.TraySetId,
                place.Trays,
                Place = new TaskPlace(house.Code, house.RoundOrder, bench.Code, bench.RoundOrder, place.Spaces, null),
            }).AsNoTracking().ToListAsync(cancellation);
        var places = planned.Where(row => row.Days.End >= day)
            .OrderByDescending(row => row.Days.Start)
            .GroupBy(row => row.TraySetId)
            .ToDictionary(group => group.Key, group => group.Last().Place);
        foreach (var row in standing.OrderByDescending(row => row.Trays.First))
        {
            places[row.TraySetId] = row.Place;
        }

        // Where trays go once off the heat: the same choice that reporting the move makes.
        foreach (var next in planned.Where(row => row.Days.End >= day && row.Kind != BenchKind.Germination)
            .OrderByDescending(row => row.Days.Start))
        {
            places[next.TraySetId] = places[next.TraySetId] with { Next = next.Place.Bench, NextSpaces = next.Place.Spaces };
        }

        return places;
    }

    /// <summary>Where trays that are gone stood last.</summary>
    private static async Task<TaskPlace?> LastPlaceAsync(NurseryDbContext database, TraySet traySet, CancellationToken cancellation)
    {
        var ledger = await BatchLedger.LoadAsync(database, [], [traySet.Id], cancellation);
        var stood = TraySetStory.Fold(traySet, ledger.PlacesOf(traySet.Id));
        if (stood.Count == 0)
        {
            return null;
        }

        return await (
            from bench in database.Benches
            join house in database.Houses on bench.HouseId equals house.Id
            where bench.Id == stood[0].BenchId
            select new TaskPlace(house.Code, house.RoundOrder, bench.Code, bench.RoundOrder, stood[0].Spaces, null)).SingleAsync(cancellation);
    }

    private sealed record TaskPlace(string House, int HouseOrder, string Bench, int BenchOrder, SpaceRun? Spaces, string? Next,
        SpaceRun? NextSpaces = null);
}
