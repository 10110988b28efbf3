using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Application.Rounds;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Testing.Nurseries;

namespace Nursery.Application.Tests.Forecasts;

/// <summary>Steps of forecast tests: a batch for an order, on heat, sown.</summary>
internal static class ForecastNursery
{
    /// <summary>Pepper wants 56 days from sowing.</summary>
    public static async Task<PlannedBatch> SownForOrderAsync(
        this TestNursery nursery, int plants, int dueInDays, int trays = 2, int seeds = 1, Variety? variety = null)
    {
        var batch = await nursery.PlannedForOrderAsync(plants, dueInDays, trays, seeds, variety);
        await nursery.SowAsync(batch);
        return batch;
    }

    /// <summary>The same, to be sown today.</summary>
    public static async Task<PlannedBatch> PlannedForOrderAsync(
        this TestNursery nursery, int plants, int dueInDays, int trays = 2, int seeds = 1, Variety? variety = null)
    {
        variety ??= nursery.Pepper;
        var order = Guid.NewGuid().ToString("N")[..6];
        await nursery.ImportAsync(FormattableString.Invariant($"{order},A Customer,{variety.Code},{plants},{nursery.Today.PlusDays(dueInDays):uuuu-MM-dd}"));
        var line = (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(Limit: 1000), nursery.HeadGrower)).Items.Single(item => item.Order == order);
        var batch = await nursery.Get<PlanBatch>().HandleAsync(
            new PlanBatchRequest(variety.Code, $"L-{variety.Code}", trays, 72, seeds, nursery.Today, [new PlannedAllocation(line.Id, plants)]), nursery.HeadGrower);
        await nursery.ReserveAsync(batch, "G1", null, nursery.Today, nursery.Today.PlusDays(25));
        return batch;
    }

    public static Task<Guid> CountAsync(this TestNursery nursery, PlannedBatch batch, int cellsUp) =>
        nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.CellsUp, cellsUp, null, null, false));
}
