using Microsoft.EntityFrameworkCore;
using NodaTime;
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

/// <summary>What an import did, or would do: rows read, order lines created, lines at fault.</summary>
public sealed record ImportResult(bool DryRun, int Rows, int Created, IReadOnlyList<FieldError> Errors);

/// <summary>Order lines from a CSV file: all or nothing, and the same file twice adds nothing.</summary>
public sealed class ImportOrders(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
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
        var fresh = Check(rows, known, errors);
        var total = rows.Count + errors.Where(error => error.Line is not null).Select(error => error.Line)
            .Except(rows.Select(row => (int?)row.Line)).Count();
        if (errors.Count > 0 || dryRun)
        {
            return new ImportResult(
                dryRun, total, errors.Count > 0 ? 0 : fresh.Count, [.. errors.OrderBy(error => error.Line)]);
        }

        Add(database, site, known, fresh);
        if (fresh.Count > 0)
        {
            database.Write(site, actor, time, new Imported("orders", rows.Count, fresh.Count));
        }

        await database.SaveChangesAsync(cancellation);
        return new ImportResult(false, total, fresh.Count, []);
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
                errors.Add(new FieldError("variety", row.Variety, "the code of a variety in the list of varieties", row.Line));
                continue;
            }

            if (customers.TryGetValue(row.Order, out var customer) && customer != row.Customer)
            {
                errors.Add(new FieldError("customer", row.Customer, $"'{customer}', whose order {row.Order} is", row.Line));
                continue;
            }

            customers[row.Order] = row.Customer;
            var key = (row.Order, row.Variety, row.ReadyOn);
            if (!inFile.TryAdd(key, row.Line))
            {
                errors.Add(new FieldError("order", row.Order, $"one line an order, variety and day: line {inFile[key]} is the same", row.Line));
            }
            else if (!known.Lines.TryGetValue(key, out var plants))
            {
                fresh.Add(row);
            }
            else if (plants != row.Plants)
            {
                errors.Add(new FieldError(
                    "plants", row.Plants.ToString(System.Globalization.CultureInfo.InvariantCulture),
                    $"{plants}, as already ordered: an import adds order lines and changes none", row.Line));
            }
        }

        return fresh;
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

            database.OrderLines.Add(new OrderLine
            {
                Id = NewId.Of<OrderLine>(time),
                SiteId = site.Id,
                OrderId = orderId,
                VarietyId = known.Varieties[row.Variety],
                Plants = row.Plants,
                ReadyOn = row.ReadyOn,
            });
        }
    }

    /// <summary>What the site already has, by the words of the file.</summary>
    private sealed record KnownRows(
        Dictionary<string, Id<Variety>> Varieties,
        Dictionary<string, Id<Customer>> Customers,
        Dictionary<string, Id<Order>> Orders,
        Dictionary<string, string> CustomerOfOrder,
        Dictionary<(string Order, string Variety, LocalDate ReadyOn), int> Lines)
    {
        public static async Task<KnownRows> LoadAsync(
            NurseryDbContext database, Id<Site> siteId, CancellationToken cancellation)
        {
            var orders = await (
                from order in database.Orders
                join customer in database.Customers on order.CustomerId equals customer.Id
                where order.SiteId == siteId
                select new { order.Id, order.Number, customer.Name }).ToListAsync(cancellation);
            var lines = await (
                from line in database.OrderLines
                join order in database.Orders on line.OrderId equals order.Id
                join variety in database.Varieties on line.VarietyId equals variety.Id
                where line.SiteId == siteId
                select new { order.Number, variety.Code, line.ReadyOn, line.Plants }).ToListAsync(cancellation);
            return new KnownRows(
                await database.Varieties.Where(variety => variety.RetiredOn == null)
                    .ToDictionaryAsync(variety => variety.Code, variety => variety.Id, cancellation),
                await database.Customers.ToDictionaryAsync(customer => customer.Name, customer => customer.Id, cancellation),
                orders.ToDictionary(order => order.Number, order => order.Id),
                orders.ToDictionary(order => order.Number, order => order.Name),
                lines.ToDictionary(line => (line.Number, line.Code, line.ReadyOn), line => line.Plants));
        }
    }
}
