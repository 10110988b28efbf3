using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.Sites;

namespace Nursery.Application.Start;

/// <summary>An order line with plants no batch is meant for, and the day it should be sown.</summary>
public sealed record UnplannedOrderLine(
    Guid OrderLineId, string Order, string Customer, string CropName, string VarietyName, int OpenPlants, LocalDate ReadyOn, LocalDate SowOn);

internal static class UnplannedLines
{
    /// <summary>Lines to be sown by a day, the earliest first; those whose sowing day is past are among them.</summary>
    public static async Task<IReadOnlyList<UnplannedOrderLine>> LoadAsync(
        NurseryDbContext database, Site site, LocalDate sowBy, CancellationToken cancellation)
    {
        var rows = await (
            from line in database.OrderLines
            join order in database.Orders on line.OrderId equals order.Id
            join customer in database.Customers on order.CustomerId equals customer.Id
            join variety in database.Varieties on line.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where line.SiteId == site.Id
            select new
            {
                line,
                order.Number,
                Customer = customer.Name,
                variety.Name,
                crop,
                Open = line.Plants - database.Allocations.Where(row => row.OrderLineId == line.Id).Sum(row => row.Plants),
            }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.Where(row => row.Open > 0)
                .Select(row => new UnplannedOrderLine(
                    row.line.Id.Value, row.Number, row.Customer, row.crop.Name, row.Name, row.Open, row.line.ReadyOn,
                    row.line.ReadyOn.PlusDays(-row.crop.DaysToReady - site.MarginDays)))
                .Where(row => row.SowOn <= sowBy)
                .OrderBy(row => row.SowOn).ThenBy(row => row.Order, StringComparer.Ordinal),
        ];
    }
}
