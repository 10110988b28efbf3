using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Orders;

/// <summary>How an order line is delivered, and what is taken instead.</summary>
/// <param name="OrderLineId">The line.</param>
/// <param name="Version">The version it was read at.</param>
/// <param name="Deliveries">None, or two or more by day, the first on the line's ready day, together its plants.</param>
/// <param name="Substitutes">Codes of other varieties, what is taken first in front; at most 20.</param>
public sealed record ChangeOrderLineRequest(
    Guid OrderLineId, int Version, IReadOnlyList<AskedDelivery> Deliveries, IReadOnlyList<string> Substitutes);

/// <summary>Splits an order line into deliveries and keeps the varieties taken instead.</summary>
public sealed class ChangeOrderLine(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <returns>The new version.</returns>
    /// <exception cref="ChangedMeanwhile">Someone else changed the line.</exception>
    /// <exception cref="InUse">A batch is made for a delivery that would go or become too small, or of a variety no longer taken.</exception>
    public Task<int> HandleAsync(ChangeOrderLineRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => ChangeAsync(database, request, actor, cancellation), cancellation);
    }

    private async Task<int> ChangeAsync(
        NurseryDbContext database, ChangeOrderLineRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var id = new Id<OrderLine>(request.OrderLineId);
        var served = await database.Allocations.Where(row => row.OrderLineId == id).Select(row => row.BatchId).ToListAsync(cancellation);
        var batches = await database.LockBatchesAsync(served, cancellation);
        var line = (await database.OrderLines
            .FromSql($"SELECT * FROM order_lines WHERE id = {request.OrderLineId} FOR UPDATE").ToListAsync(cancellation))
            .SingleOrDefault(row => row.SiteId == actor.SiteId) ?? throw new NotFound("order line", "id", request.OrderLineId.ToString());
        var parts = await LineParts.LoadAsync(database, actor.SiteId, cancellation, id);
        var before = Fields(
            parts.Deliveries[id].Select(row => new AskedDelivery(row.ReadyOn, row.Plants)), parts.Substitutes[id].Select(row => row.Code));
        var after = Fields(request.Deliveries, request.Substitutes);
        if (line.Version != request.Version)
        {
            throw new ChangedMeanwhile("The order line", line.Version, [
                .. after.Where(field => before[field.Key] != field.Value).Select(field => new TwoValues(field.Key, field.Value, before[field.Key]))]);
        }

        var substitutes = await CheckAsync(database, request, line, cancellation);
        if (before.All(field => after[field.Key] == field.Value))
        {
            return line.Version;
        }

        await DeliverAsync(database, line, parts, request.Deliveries, cancellation);
        await SubstituteAsync(database, line, substitutes, cancellation);
        line.Version++;
        var order = await database.Orders.Where(row => row.Id == line.OrderId).Select(row => row.Number).SingleAsync(cancellation);
        var variety = await database.Varieties.Where(row => row.Id == line.VarietyId).Select(row => row.Code).SingleAsync(cancellation);
        database.Write(site, actor, time, new Changed("order line", $"{order} {variety} {Cell.Of(line.ReadyOn)}", before, after));
        await database.SaveChangesAsync(cancellation);
        await TaskWriting.SyncAsync(database, batches, site.Today(time), time, cancellation);
        return line.Version;
    }

    private static async Task<List<Variety>> CheckAsync(
        NurseryDbContext database, ChangeOrderLineRequest request, OrderLine line, CancellationToken cancellation)
    {
        var checks = new FieldChecks().Range("substitutes", request.Substitutes.Count, 0, 20);
        if (!AskedDelivery.AreOf(line.Plants, line.ReadyOn, request.Deliveries))
        {
            checks.Fail("deliveries", AskedDelivery.Write(request.Deliveries), string.Create(
                CultureInfo.InvariantCulture, $"none, or {AskedDelivery.Allowed} ({line.Plants})"));
        }

        var known = await database.Varieties
            .Where(row => request.Substitutes.Contains(row.Code) && row.RetiredOn == null && row.Id != line.VarietyId).ToListAsync(cancellation);
        var chosen = request.Substitutes.Select(code => known.Find(row => row.Code == code)).OfType<Variety>().Distinct().ToList();
        if (chosen.Count != request.Substitutes.Count)
        {
            checks.Fail("substitutes", string.Join("; ", request.Substitutes), "codes of other varieties in use, each once");
        }

        checks.Done();
        return chosen;
    }

    /// <summary>A delivery is known by its day: batches made for it stay with it.</summary>
    private async Task DeliverAsync(
        NurseryDbContext database, OrderLine line, LineParts parts, IReadOnlyList<AskedDelivery> asked, CancellationToken cancellation)
    {
        var rows = await database.OrderDeliveries.Where(row => row.OrderLineId == line.Id).ToListAsync(cancellation);
        foreach (var row in rows)
        {
            var plants = asked.FirstOrDefault(delivery => delivery.ReadyOn == row.ReadyOn)?.Plants ?? 0;
            if (parts.Allocated.TryGetValue(row.Id, out var taken) && plants < taken)
            {
                throw new InUse(string.Create(
                    CultureInfo.InvariantCulture, $"Batches of {taken} plants are made for the delivery of {row.ReadyOn:d MMMM yyyy}: it cannot have {plants}"));
            }

            row.Plants = plants;
        }

        database.RemoveRange(rows.Where(row => row.Plants == 0));
        database.AddRange(asked.Where(delivery => rows.TrueForAll(row => row.ReadyOn != delivery.ReadyOn)).Select(delivery => new OrderDelivery
        {
            Id = NewId.Of<OrderDelivery>(time),
            SiteId = line.SiteId,
            OrderLineId = line.Id,
            ReadyOn = delivery.ReadyOn,
            Plants = delivery.Plants,
        }));
    }

    private static async Task SubstituteAsync(
        NurseryDbContext database, OrderLine line, List<Variety> chosen, CancellationToken cancellation)
    {
        var ids = chosen.ConvertAll(row => row.Id);
        var served = await (
            from allocation in database.Allocations
            join batch in database.Batches on allocation.BatchId equals batch.Id
            where allocation.OrderLineId == line.Id && batch.VarietyId != line.VarietyId && !ids.Contains(batch.VarietyId)
            orderby batch.Code
            select batch.Code).FirstOrDefaultAsync(cancellation);
        if (served is not null)
        {
            throw new InUse($"Batch {served} of another variety serves this line: its variety must stay among those taken instead");
        }

        database.RemoveRange(await database.OrderSubstitutes.Where(row => row.OrderLineId == line.Id).ToListAsync(cancellation));
        await database.SaveChangesAsync(cancellation);
        database.AddRange(chosen.Select((row, index) => new OrderSubstitute { OrderLineId = line.Id, VarietyId = row.Id, Rank = index + 1 }));
    }

    private static Dictionary<string, string> Fields(IEnumerable<AskedDelivery> deliveries, IEnumerable<string> substitutes) => new()
    {
        ["deliveries"] = AskedDelivery.Write(deliveries),
        ["substitutes"] = string.Join("; ", substitutes),
    };
}
