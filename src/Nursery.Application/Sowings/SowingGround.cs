using NodaTime;
using Nursery.Agronomy.Sowing;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Application.Forecasts;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;

namespace Nursery.Application.Sowings;

/// <summary>What a batch is to give, and of what.</summary>
/// <param name="Plants">Wanted, 1 or more.</param>
/// <param name="Place">First space held on heat; null without one.</param>
internal sealed record SowingWish(
    Crop Crop, SeedLot? Lot, int Plants, int CellsPerTray, LocalDate Day, (Id<Bench> Bench, int Space)? Place = null);

/// <summary>Everything of a site that decides how much is sown: loaded once, asked for many batches.</summary>
internal sealed class SowingGround(Site site, PlannedHeat heat, SeedChances chances)
{
    /// <summary>More plants than anybody sows at once have no answer either.</summary>
    private const int MostPlants = 1_000_000;

    public static async Task<SowingGround> LoadAsync(NurseryDbContext database, Site site, LocalDate day, CancellationToken cancellation) => new(
        site,
        await PlannedHeat.LoadAsync(database, site, cancellation),
        await SeedChances.LoadAsync(database, site, day, cancellation));

    /// <summary>The same for some batches not sown yet, with what is at risk by forecast; both from the same chances of seed.</summary>
    public static async Task<(SowingGround Ground, IReadOnlyDictionary<Guid, SowingRisk> Risks)> LoadWithRisksAsync(
        NurseryDbContext database, Site site, IReadOnlyCollection<BatchRow> open, TimeProvider time, CancellationToken cancellation)
    {
        var ids = open.Select(row => row.Batch.Id).ToList();
        var (makings, chances) = await BatchForecasts.LoadAsync(
            database, site, database.BatchRows(site.Id).Where(row => ids.Contains(row.Batch.Id)), time, cancellation);
        return (
            new SowingGround(site, await PlannedHeat.LoadAsync(database, site, cancellation), chances),
            makings.Select(SowingRisk.Of).OfType<SowingRisk>().ToDictionary(risk => risk.BatchId));
    }

    public PlannedHeat Heat => heat;

    /// <summary>Null where nothing would come up on the heat planned.</summary>
    public SowingCase? Of(SowingWish wish)
    {
        var spot = heat.SpotOf(wish.Crop, wish.Day, wish.Place);
        var chance = chances.Of(new SeedQuestion(wish.Crop, wish.Lot, spot.HouseCode, spot.Media, wish.Day));
        if (chance is null || wish.Plants > MostPlants)
        {
            return null;
        }

        var terms = SowingTerms.Of(site, wish.Crop, wish.CellsPerTray);
        return new SowingCase(wish, spot, chance, terms, new SowingQuestion(wish.Plants, chance.Prior, wish.CellsPerTray)
        {
            Confidence = terms.Confidence,
            Survival = terms.Survival,
            WithinCellCorrelation = terms.Keep.High == 1 ? SowingTerms.Correlation : 0,
            TrayLoss = terms.TrayLoss,
            Keep = terms.Keep,
            Costs = terms.Costs,
        });
    }
}
