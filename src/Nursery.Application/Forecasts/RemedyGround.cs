using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Crops;
using Nursery.Domain.Orders;
using Nursery.Domain.SeedLots;

namespace Nursery.Application.Forecasts;

/// <summary>Seed in stock, and which varieties customers take instead: for all short batches in two queries.</summary>
internal sealed class RemedyGround
{
    private readonly ILookup<Id<Crop>, (SeedLot Lot, Variety Variety)> _seed;
    private readonly ILookup<Guid, (Id<Variety> Variety, int Rank)> _instead;

    private RemedyGround(ILookup<Id<Crop>, (SeedLot Lot, Variety Variety)> seed, ILookup<Guid, (Id<Variety> Variety, int Rank)> instead) =>
        (_seed, _instead) = (seed, instead);

    public static async Task<RemedyGround> LoadAsync(
        NurseryDbContext database, IReadOnlyCollection<ForecastMaking> batches, CancellationToken cancellation)
    {
        var crops = batches.Select(batch => batch.Ground.Row.Crop.Id).Distinct().ToList();
        var lines = batches.SelectMany(batch => batch.Ground.Ordered).Select(line => new Id<OrderLine>(line.OrderLineId)).Distinct().ToList();
        var seed = await (
            from lot in database.SeedLots
            join variety in database.Varieties on lot.VarietyId equals variety.Id
            where crops.Contains(variety.CropId) && lot.RetiredOn == null && variety.RetiredOn == null && lot.StockSeeds > 0
            select new { lot, variety }).AsNoTracking().ToListAsync(cancellation);
        var instead = await database.OrderSubstitutes.AsNoTracking().Where(row => lines.Contains(row.OrderLineId)).ToListAsync(cancellation);
        return new RemedyGround(
            seed.OrderBy(row => row.lot.Code, StringComparer.Ordinal).ToLookup(row => row.variety.CropId, row => (row.lot, row.variety)),
            instead.ToLookup(row => row.OrderLineId.Value, row => (row.VarietyId, row.Rank)));
    }

    public IEnumerable<SeedLot> LotsOf(Variety variety) => _seed[variety.CropId].Where(row => row.Variety.Id == variety.Id).Select(row => row.Lot);

    /// <summary>Other varieties of the crop with seed; those every customer of the batch takes come first, and are marked.</summary>
    public IEnumerable<(SeedLot Lot, Variety Variety, bool Taken)> Others(ForecastGround ground) => _seed[ground.Row.Crop.Id]
        .Where(row => row.Variety.Id != ground.Row.Variety.Id)
        .Select(row => (row.Lot, row.Variety, Rank: RankOf(ground, row.Variety)))
        .OrderBy(row => row.Rank).ThenByDescending(row => row.Lot.LabelGermination)
        .Select(row => (row.Lot, row.Variety, row.Rank < int.MaxValue));

    private int RankOf(ForecastGround ground, Variety variety) => ground.Ordered
        .Select(line => _instead[line.OrderLineId].Where(row => row.Variety == variety.Id).Select(row => row.Rank).DefaultIfEmpty(int.MaxValue).Min())
        .DefaultIfEmpty(int.MaxValue).Max();
}
