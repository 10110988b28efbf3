using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.TraySets;
using Nursery.Printing.PickLists;

namespace Nursery.Application.Papers;

/// <summary>What to pick for one order, or for all orders of a day.</summary>
public sealed class PrintPickList(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <returns>A PDF.</returns>
    /// <exception cref="InvalidFields">No order of that number.</exception>
    public async Task<byte[]> HandleAsync(
        string? order, LocalDate? on, SheetSize? paper, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var day = on ?? (order is null ? site.Today(time) : null);
        var lines = await (
            from line in database.OrderLines
            join parent in database.Orders on line.OrderId equals parent.Id
            join customer in database.Customers on parent.CustomerId equals customer.Id
            join variety in database.Varieties on line.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where line.SiteId == site.Id && (order == null || parent.Number == order) && (day == null || line.ReadyOn == day)
            orderby parent.Number, line.ReadyOn, crop.Name, variety.Name, line.Id
            select new Wanted(line, parent.Number, customer.Name, $"{crop.Name} ‘{variety.Name}’")).AsNoTracking().ToListAsync(cancellation);
        if (order is not null && lines.Count == 0 && !await database.Orders.AnyAsync(row => row.SiteId == site.Id && row.Number == order, cancellation))
        {
            throw new InvalidFields("order", order, "the number of an order of this site");
        }

        var picks = await PicksAsync(database, lines, site.Id, site.Today(time), cancellation);
        return PickListDocument.Render(new PickListModel(
            site.Imprint(time),
            site.Sheet(paper),
            string.Join(" · ", new[] { order is null ? null : "order " + order, day is { } one ? PaperWords.WeekDay(one) : null }.OfType<string>()),
            [
                .. lines.GroupBy(line => (line.Number, line.Line.ReadyOn)).Select(group => new PickOrder(
                    group.Key.Number, group.First().Customer, PaperWords.Day(group.Key.ReadyOn),
                    [.. group.Select(line => LineOf(line, picks[line.Line.Id]))])),
            ]));
    }

    private static PickLine LineOf(Wanted wanted, IEnumerable<Pick> picks)
    {
        var places = picks.OrderBy(pick => pick.First?.HouseOrder ?? int.MaxValue)
            .ThenBy(pick => pick.First?.BenchOrder).ThenBy(pick => pick.Row.Batch.Code, StringComparer.Ordinal).ToList();
        var open = wanted.Line.Plants - places.Sum(pick => pick.Plants);
        return new PickLine(
            wanted.Subject,
            PaperWords.Count(wanted.Line.Plants, "plant", "plants"),
            open > 0 ? PaperWords.Count(open, "plant has", "plants have") + " no batch" : null,
            [.. places.Select(PlaceOf)]);
    }

    private static PickPlace PlaceOf(Pick pick) => new(
        pick.Row.Batch.Code,
        $"{pick.Row.Crop.Name} ‘{pick.Row.Variety.Name}’",
        PaperWords.Count(pick.Plants, "plant", "plants"),
        FormattableString.Invariant($"from {PaperWords.Trays(pick.Row.TraySet.Trays)} of {pick.Row.TraySet.CellsPerTray}"),
        pick.Places.Count > 0 ? string.Join("; ", pick.Places.Select(place => (place.Standing ? "" : "planned: ") + place.Words)) : Gone(pick.Row.Batch),
        PaperWords.Pattern(pick.Row.Batch.State.Stage));

    private static string Gone(Batch batch) => batch.State.Stage switch
    {
        BatchStage.HandedOver => "handed over",
        BatchStage.Discarded => "given up",
        _ => "stands nowhere yet",
    };

    private static async Task<ILookup<Id<OrderLine>, Pick>> PicksAsync(
        NurseryDbContext database, List<Wanted> lines, Id<Domain.Sites.Site> site, LocalDate today, CancellationToken cancellation)
    {
        var wanted = lines.ConvertAll(line => line.Line.Id);
        var allocations = await database.Allocations.AsNoTracking()
            .Where(row => wanted.Contains(row.OrderLineId)).ToListAsync(cancellation);
        var batches = allocations.Select(row => row.BatchId).Distinct().ToList();
        var rows = await database.BatchRows(site).AsNoTracking()
            .Where(row => batches.Contains(row.Batch.Id)).ToDictionaryAsync(row => row.Batch.Id, cancellation);
        var places = await TrayPlaces.LoadAsync(database, site, today, cancellation);
        return allocations.Where(row => rows.ContainsKey(row.BatchId)).ToLookup(
            row => row.OrderLineId,
            row => new Pick(rows[row.BatchId], row.Plants, [.. places[rows[row.BatchId].TraySet.Id]]));
    }

    private sealed record Wanted(OrderLine Line, string Number, string Customer, string Subject);

    private sealed record Pick(BatchRow Row, int Plants, IReadOnlyList<TrayPlace> Places)
    {
        public TrayPlace? First => Places.Count > 0 ? Places[0] : null;
    }
}
