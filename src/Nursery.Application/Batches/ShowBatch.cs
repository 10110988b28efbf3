using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Rounds;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>Spaces a batch holds by plan: from a day to the first day no longer held.</summary>
public sealed record BatchReservation(
    Guid Id, string House, string BenchCode, int FirstSpace, int Spaces, LocalDate From, LocalDate To);

/// <summary>Where trays of the batch stand in fact; spaces are null when nobody said where on the bench.</summary>
public sealed record BatchStanding(string House, string BenchCode, int FirstTray, int Trays, int? FirstSpace, int? Spaces, LocalDate Since);

/// <summary>An order line the batch serves, or a delivery of it; Ordered names the variety when the batch is of another.</summary>
public sealed record BatchAllocation(Guid OrderLineId, string Order, string Customer, int Plants, LocalDate ReadyOn, string? Ordered = null);

/// <summary>Another batch in the same trays, and which rows of cells are its own.</summary>
public sealed record SharingBatch(Guid Id, string Code, BatchStage Stage, string CropName, string VarietyName, string Part, LocalDate SowOn);

/// <summary>A line of the batch's story; <paramref name="Undone"/> when it was taken back.</summary>
public sealed record StoryLine(
    Guid EntryId, LedgerKind Kind, LocalDate Day, Instant HappenedAt, string Who, EntryValue Value, bool Undone);

/// <summary>One batch: the list item, its plan, where it stands, whom it is for and its story.</summary>
public sealed record BatchPage(
    BatchItem Batch,
    IReadOnlyList<BatchReservation> Reservations,
    IReadOnlyList<BatchStanding> Standings,
    IReadOnlyList<BatchAllocation> Allocations,
    IReadOnlyList<SharingBatch> SharedWith,
    IReadOnlyList<StoryLine> Story);

public sealed class ShowBatch(IDbContextFactory<NurseryDbContext> databases)
{
    /// <exception cref="NotFound">No such batch on the actor's site.</exception>
    public async Task<BatchPage> HandleAsync(Guid id, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var batchId = new Id<Batch>(id);
        var row = await database.BatchRows(actor.SiteId).AsNoTracking()
            .FirstOrDefaultAsync(found => found.Batch.Id == batchId, cancellation)
            ?? throw new NotFound("batch", "id", id.ToString());
        return new BatchPage(
            BatchItem.From(row),
            await ReservationsAsync(database, row.TraySet.Id, cancellation),
            await StandingsAsync(database, row.TraySet.Id, cancellation),
            await AllocationsAsync(database, batchId, cancellation),
            await SharedWithAsync(database, row, actor.SiteId, cancellation),
            await StoryAsync(database, batchId, cancellation));
    }

    private static async Task<IReadOnlyList<BatchReservation>> ReservationsAsync(
        NurseryDbContext database, Id<TraySet> traySetId, CancellationToken cancellation)
    {
        var rows = await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where reservation.TraySetId == traySetId
            select new { reservation, bench.Code, House = house.Code }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.OrderBy(row => row.reservation.Days.Start).Select(row => new BatchReservation(
                row.reservation.Id.Value, row.House, row.Code, row.reservation.Spaces.First, row.reservation.Spaces.Count,
                row.reservation.Days.Start, row.reservation.To)),
        ];
    }

    private static async Task<IReadOnlyList<BatchStanding>> StandingsAsync(
        NurseryDbContext database, Id<TraySet> traySetId, CancellationToken cancellation)
    {
        var rows = await (
            from standing in database.Standings
            join bench in database.Benches on standing.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where standing.TraySetId == traySetId
            select new { standing, bench.Code, House = house.Code }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.OrderBy(row => row.standing.Trays.First).Select(row => new BatchStanding(
                row.House, row.Code, row.standing.Trays.First, row.standing.Trays.Count,
                row.standing.Spaces?.First, row.standing.Spaces?.Count, row.standing.Since)),
        ];
    }

    private static async Task<IReadOnlyList<BatchAllocation>> AllocationsAsync(
        NurseryDbContext database, Id<Batch> batchId, CancellationToken cancellation) =>
        await (
            from allocation in database.Allocations
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            join order in database.Orders on line.OrderId equals order.Id
            join customer in database.Customers on order.CustomerId equals customer.Id
            join batch in database.Batches on allocation.BatchId equals batch.Id
            join variety in database.Varieties on line.VarietyId equals variety.Id
            from delivery in database.OrderDeliveries.Where(row => row.Id == allocation.DeliveryId).DefaultIfEmpty()
            where allocation.BatchId == batchId
            orderby delivery == null ? line.ReadyOn : delivery.ReadyOn, order.Number
            select new BatchAllocation(
                line.Id.Value, order.Number, customer.Name, allocation.Plants, delivery == null ? line.ReadyOn : delivery.ReadyOn,
                batch.VarietyId == line.VarietyId ? null : variety.Name))
            .ToListAsync(cancellation);

    private static async Task<IReadOnlyList<SharingBatch>> SharedWithAsync(
        NurseryDbContext database, BatchRow row, Id<Domain.Sites.Site> site, CancellationToken cancellation)
    {
        var others = await database.BatchRows(site).AsNoTracking()
            .Where(other => other.TraySet.Id == row.TraySet.Id && other.Batch.Id != row.Batch.Id).ToListAsync(cancellation);
        return
        [
            .. others.OrderBy(other => other.Share.FirstRow).ThenBy(other => other.Batch.Id).Select(other => new SharingBatch(
                other.Batch.Id.Value, other.Batch.Code, other.Batch.State.Stage, other.Crop.Name, other.Variety.Name,
                other.Share.Part(other.TraySet) ?? "rows not said", other.Batch.SowOn)),
        ];
    }

    private static async Task<IReadOnlyList<StoryLine>> StoryAsync(
        NurseryDbContext database, Id<Batch> batchId, CancellationToken cancellation)
    {
        var entries = (await BatchLedger.LoadAsync(database, [batchId], [], cancellation)).Of(batchId);
        var standing = LedgerOrder.Effective(entries).Select(entry => entry.Id).ToHashSet();
        return
        [
            .. entries.OrderBy(entry => entry.EffectiveAt).ThenBy(entry => entry.Id).Select(entry => new StoryLine(
                entry.Id.Value, entry.Kind, entry.Day, entry.HappenedAt, entry.WhoName, entry.Value,
                entry.Value is not Undo && !standing.Contains(entry.Id))),
        ];
    }
}
