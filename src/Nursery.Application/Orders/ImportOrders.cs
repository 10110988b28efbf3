using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Crops;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Application.Orders;

/// <summary>What an import did, or would do: rows read, order lines created, lines at fault; varieties new with them, and the
/// codes of crops taken from the starting profiles.</summary>
public sealed record ImportResult(
    bool DryRun, int Rows, int Created, int NewVarieties, IReadOnlyList<string> StartingCrops, IReadOnlyList<FieldError> Errors);

/// <summary>Order lines from a CSV file: all or nothing, and the same file twice adds nothing.</summary>
public sealed class ImportOrders(
    IDbContextFactory<NurseryDbContext> databases, SetupLists lists, StartingCrops starting, TimeProvider time)
{
    /// <exception cref="Malformed">The file cannot be read as the CSV of docs/imports.md.</exception>
    /// <exception cref="TooLarge">Too long.</exception>
    public async Task<ImportResult> HandleAsync(
        ReadOnlyMemory<byte> file, bool dryRun, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        var (rows, errors) = OrderFile.Read(CsvText.Decode(file.Span));
        return await databases.RunAsync(
            database => ImportAsync(database, rows, [.. errors], dryRun, actor, cancellation), cancellation);
    }

    internal async Task<ImportResult> ImportAsync(
        NurseryDbContext database,
        IReadOnlyList<OrderRow> rows,
        List<FieldError> errors,
        bool dryRun,
        Actor actor,
        CancellationToken cancellation)
    {
        // One import at a time: two files with the same new customer would trip over each other.
        await database.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock(hashtext('import orders'))", cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var known = await KnownRows.LoadAsync(database, actor.SiteId, cancellation);
        var brought = rows.Any(row => row.Crop is not null)
            ? await BroughtVarieties.OfAsync(database, rows, errors, lists, starting, actor, time, cancellation)
            : null;
        foreach (var (code, id) in brought?.All ?? [])
        {
            known.Varieties.TryAdd(code, id);
        }

        var fresh = Check(rows, known, errors);
        var total = rows.Count + errors.Where(error => error.Line is not null).Select(error => error.Line)
            .Except(rows.Select(row => (int?)row.Line)).Count();
        var result = new ImportResult(
            dryRun, total, fresh.Count, brought?.Count ?? 0, brought?.StartingCrops ?? [], [.. errors.OrderBy(error => error.Line)]);
        if (errors.Count > 0)
        {
            return result with { Created = 0, NewVarieties = 0, StartingCrops = [] };
        }

        if (dryRun)
        {
            return result;
        }

        brought?.Store(database, actor);
        Add(database, site, known, fresh);
        if (fresh.Count > 0)
        {
            database.Write(site, actor, time, new Imported("orders", rows.Count, fresh.Count));
        }

        await database.SaveChangesAsync(cancellation);
        return result;
    }

    private static List<OrderRow> Check(IReadOnlyList<OrderRow> rows, KnownRows known, List<FieldError> errors)
    {
        var fresh = new List<OrderRow>();
        var inFile = new Dictionary<(string, string, LocalDate), int>();
        var customers = new Dictionary<string, string>(known.CustomerOfOrder, StringComparer.Ordinal);
        foreach (var row in rows)
        {
            if (!known.Varieties.ContainsKey(row.Variety))
            {
                // A brought variety that is at fault is told of already.
                if (!errors.Exists(error => error.Line == row.Line))
                {
                    errors.Add(new FieldError("variety", row.Variety, "the code of a variety in the list of varieties", row.Line));
                }

                continue;
            }

            if (customers.TryGetValue(row.Order, out var customer) && customer != row.Customer)
            {
                errors.Add(new FieldError("customer", row.Customer, $"'{customer}', whose order {row.Order} is", row.Line));
                continue;
            }

            customers[row.Order] = row.Customer;
            if (row.Substitutes.Any(code => code == row.Variety || !known.Varieties.ContainsKey(code))
                || row.Substitutes.Distinct(StringComparer.Ordinal).Count() < row.Substitutes.Count)
            {
                errors.Add(new FieldError(
                    "substitutes", string.Join("; ", row.Substitutes), "codes of other varieties in the list, each once, with ; between", row.Line));
                continue;
            }

            var key = (row.Order, row.Variety, row.ReadyOn);
            if (!inFile.TryAdd(key, row.Line))
            {
                errors.Add(new FieldError("order", row.Order, $"one line an order, variety and day: line {inFile[key]} is the same", row.Line));
            }
            else if (!known.Lines.TryGetValue(key, out var line))
            {
                fresh.Add(row);
            }
            else
            {
                RefuseOther(row, line, errors);
            }
        }

        return fresh;
    }

    /// <summary>An import adds order lines and changes none; what a file leaves empty it does not ask to change.</summary>
    private static void RefuseOther(OrderRow row, KnownLine line, List<FieldError> errors)
    {
        if (line.Plants != row.Plants)
        {
            errors.Add(new FieldError(
                "plants", row.Plants.ToString(System.Globalization.CultureInfo.InvariantCulture),
                $"{line.Plants}, as already ordered: an import adds order lines and changes none", row.Line));
        }

        if (row.Deliveries.Count > 0 && !row.Deliveries.SequenceEqual(line.Deliveries))
        {
            errors.Add(new FieldError(
                "deliveries", AskedDelivery.Write(row.Deliveries), $"'{AskedDelivery.Write(line.Deliveries)}', as already ordered: change them on the page", row.Line));
        }

        if (row.Substitutes.Count > 0 && !row.Substitutes.SequenceEqual(line.Substitutes))
        {
            errors.Add(new FieldError(
                "substitutes", string.Join("; ", row.Substitutes), $"'{string.Join("; ", line.Substitutes)}', as already ordered: change them on the page", row.Line));
        }
    }

    private void Add(NurseryDbContext database, Site site, KnownRows known, List<OrderRow> fresh)
    {
        foreach (var row in fresh)
        {
            if (!known.Customers.TryGetValue(row.Customer, out var customerId))
            {
                var customer = new Customer { Id = NewId.Of<Customer>(time), Name = row.Customer };
                database.Customers.Add(customer);
                known.Customers[row.Customer] = customerId = customer.Id;
            }

            if (!known.Orders.TryGetValue(row.Order, out var orderId))
            {
                var order = new Order { Id = NewId.Of<Order>(time), SiteId = site.Id, Number = row.Order, CustomerId = customerId };
                database.Orders.Add(order);
                known.Orders[row.Order] = orderId = order.Id;
            }

            var line = new OrderLine
            {
                Id = NewId.Of<OrderLine>(time),
                SiteId = site.Id,
                OrderId = orderId,
                VarietyId = known.Varieties[row.Variety],
                Plants = row.Plants,
                ReadyOn = row.ReadyOn,
            };
            database.OrderLines.Add(line);
            database.OrderDeliveries.AddRange(row.Deliveries.Select(delivery => new OrderDelivery
            {
                Id = NewId.Of<OrderDelivery>(time),
                SiteId = site.Id,
                OrderLineId = line.Id,
                ReadyOn = delivery.ReadyOn,
                Plants = delivery.Plants,
            }));
            database.OrderSubstitutes.AddRange(row.Substitutes.Select((code, index) => new OrderSubstitute
            {
                OrderLineId = line.Id,
                VarietyId = known.Varieties[code],
                Rank = index + 1,
            }));
        }
    }
}
