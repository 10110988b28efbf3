using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.Orders;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Papers;

/// <summary>Plants of a batch, and where its trays are.</summary>
internal sealed record Pick(BatchRow Row, int Plants, IReadOnlyList<TrayPlace> Places)
{
    public TrayPlace? First => Places.Count > 0 ? Places[0] : null;
}

/// <summary>Where wanted plants are taken from: the batches allocated to them; when those are short, varieties the customer takes instead.</summary>
internal sealed class PickSources
{
    private readonly ILookup<Id<OrderLine>, Allocation> _allocations;
    private readonly ILookup<Id<OrderLine>, OrderSubstitute> _substitutes;
    private readonly Dictionary<Id<Batch>, BatchRow> _batches;
    private readonly Dictionary<Id<Batch>, int> _promised;
    private readonly Dictionary<Id<Variety>, string> _names;
    private readonly ILookup<Id<TraySet>, TrayPlace> _places;

    private PickSources(
        List<Allocation> allocations, List<OrderSubstitute> substitutes, List<BatchRow> batches, Dictionary<Id<Variety>, string> names, ILookup<Id<TraySet>, TrayPlace> places)
    {
        _allocations = allocations.ToLookup(row => row.OrderLineId);
        _substitutes = substitutes.ToLookup(row => row.OrderLineId);
        _batches = batches.DistinctBy(row => row.Batch.Id).ToDictionary(row => row.Batch.Id);
        _promised = allocations.GroupBy(row => row.BatchId).ToDictionary(group => group.Key, group => group.Sum(row => row.Plants));
        (_names, _places) = (names, places);
    }

    public static async Task<PickSources> LoadAsync(
        NurseryDbContext database, Id<Site> site, LocalDate today, CancellationToken cancellation)
    {
        var lines = database.OrderLines.Where(line => line.SiteId == site).Select(line => line.Id);
        var substitutes = await database.OrderSubstitutes.AsNoTracking().Where(row => lines.Contains(row.OrderLineId)).ToListAsync(cancellation);
        var varieties = substitutes.Select(row => row.VarietyId).Distinct().ToList();
        return new PickSources(
            await database.Allocations.AsNoTracking().Where(row => lines.Contains(row.OrderLineId)).ToListAsync(cancellation),
            substitutes,
            await database.BatchRows(site).AsNoTracking().ToListAsync(cancellation),
            await (
                from variety in database.Varieties
                join crop in database.Crops on variety.CropId equals crop.Id
                where varieties.Contains(variety.Id)
                select new { variety.Id, Name = crop.Name + " ‘" + variety.Name + "’" }).ToDictionaryAsync(row => row.Id, row => row.Name, cancellation),
            await TrayPlaces.LoadAsync(database, site, today, cancellation));
    }

    /// <summary>In walking order.</summary>
    public IReadOnlyList<Pick> Of(WantedPlants wanted) => InOrder(_allocations[wanted.Line]
        .Where(row => row.DeliveryId == wanted.Delivery || (row.DeliveryId is null && wanted.First))
        .Where(row => _batches.ContainsKey(row.BatchId))
        .Select(row => PickOf(_batches[row.BatchId], row.Plants)));

    /// <summary>What the customer takes instead, what they take first first, with the batches that stand here and are not promised.</summary>
    public IEnumerable<(string Name, IReadOnlyList<Pick> Picks)> InsteadOf(WantedPlants wanted) =>
        from substitute in _substitutes[wanted.Line].OrderBy(row => row.Rank)
        let free = _batches.Values
            .Where(row => row.Variety.Id == substitute.VarietyId
                && row.Batch.State.Stage is BatchStage.GrowingOn or BatchStage.HardeningOff or BatchStage.Ready)
            .Select(row => PickOf(row, row.Batch.Cells - row.Batch.State.Lost - _promised.GetValueOrDefault(row.Batch.Id)))
            .Where(pick => pick.Plants > 0)
        select (_names[substitute.VarietyId], InOrder(free));

    private Pick PickOf(BatchRow row, int plants) => new(row, plants, [.. _places[row.TraySet.Id]]);

    private static IReadOnlyList<Pick> InOrder(IEnumerable<Pick> picks) =>
    [
        .. picks.OrderBy(pick => pick.First?.HouseOrder ?? int.MaxValue).ThenBy(pick => pick.First?.BenchOrder)
            .ThenBy(pick => pick.Row.Batch.Code, StringComparer.Ordinal),
    ];
}
