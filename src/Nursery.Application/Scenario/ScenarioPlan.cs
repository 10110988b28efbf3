using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Application.Batches;
using Nursery.Application.Reservations;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Reservations;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Scenario;

internal sealed record LoadedBatch(Id<Batch> Id, string TraySetCode, BatchRow Row);

/// <summary>Plans the batches of a scenario for their order lines, and holds the spaces its file gives them.</summary>
internal sealed class ScenarioPlan(PlanBatch planBatch, TimeProvider time)
{
    public async Task<IReadOnlyList<LoadedBatch>> AddAsync(
        NurseryDbContext database, ScenarioData scenario, Actor planner, CancellationToken cancellation)
    {
        var batches = new List<LoadedBatch>();
        foreach (var row in scenario.Batches)
        {
            var request = new PlanBatchRequest(
                row.Variety.Code, row.Lot.Code, row.Trays, row.CellsPerTray, row.SeedsPerCell, row.SowOn,
                await AllocationsAsync(database, row, cancellation));
            var planned = await RowRefusals.TellAsync(
                row.Row, "orders", () => planBatch.PlanAsync(database, request, planner, mayBePast: true, cancellation));
            await ReserveAsync(database, scenario.Site.Site, row, planned.TraySetCode, planner, cancellation);
            batches.Add(new LoadedBatch(new Id<Batch>(planned.Id), planned.TraySetCode, row));
            database.ChangeTracker.Clear();
        }

        return batches;
    }

    /// <summary>The plants the batch will have, shared out to its orders as they are listed.</summary>
    private static async Task<IReadOnlyList<PlannedAllocation>> AllocationsAsync(
        NurseryDbContext database, BatchRow row, CancellationToken cancellation)
    {
        var left = ExpectedPlants(row);
        var allocations = new List<PlannedAllocation>();
        foreach (var number in row.Orders)
        {
            var lines = await OpenLinesAsync(database, row, number, cancellation);
            if (lines.Count == 0)
            {
                row.Row.FailNow("orders", $"orders with a line of {row.Variety.Code}; {number} has none");
            }

            foreach (var (line, open) in lines)
            {
                var plants = Math.Min(open, left);
                if (plants > 0)
                {
                    allocations.Add(new PlannedAllocation(line.Value, plants));
                    left -= plants;
                }
            }
        }

        return allocations;
    }

    private static async Task<IReadOnlyList<(Id<OrderLine> Line, int Open)>> OpenLinesAsync(
        NurseryDbContext database, BatchRow row, string number, CancellationToken cancellation)
    {
        var lines = await (
            from line in database.OrderLines
            join order in database.Orders on line.OrderId equals order.Id
            where order.Number == number && line.VarietyId == row.Variety.Id
            orderby line.ReadyOn
            select new
            {
                line.Id,
                Open = line.Plants - database.Allocations.Where(taken => taken.OrderLineId == line.Id).Sum(taken => taken.Plants),
            }).ToListAsync(cancellation);
        return [.. lines.Select(line => (line.Id, line.Open))];
    }

    /// <summary>The same rule by which trays are planned from plants, the other way round.</summary>
    private static int ExpectedPlants(BatchRow row)
    {
        var empty = 1m;
        for (var seed = 0; seed < row.SeedsPerCell; seed++)
        {
            empty *= 1 - row.Lot.LabelGermination;
        }

        return (int)(row.Trays * row.CellsPerTray * (1 - empty) * SowingNeed.SurvivingShare);
    }

    private async Task ReserveAsync(
        NurseryDbContext database, Site site, BatchRow row, string traySetCode, Actor planner, CancellationToken cancellation)
    {
        var traySet = await database.TraySets.SingleAsync(set => set.Code == traySetCode && set.SiteId == site.Id, cancellation);
        foreach (var held in row.Reservations)
        {
            var reservation = new Reservation
            {
                Id = NewId.Of<Reservation>(time),
                SiteId = site.Id,
                TraySetId = traySet.Id,
                Trays = new SpaceRun(1, traySet.Trays),
                BenchId = held.Bench.Id,
                Capacity = held.Bench.Capacity,
                Spaces = held.Spaces,
                Days = new DateInterval(held.From, held.To.PlusDays(-1)),
            };
            database.Reservations.Add(reservation);
            database.Write(site, planner, time, reservation.AsEntry(), traySet: traySet.Id, bench: held.Bench.Id);
        }

        await database.SaveChangesAsync(cancellation);
    }
}
