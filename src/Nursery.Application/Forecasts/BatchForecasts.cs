using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;

namespace Nursery.Application.Forecasts;

/// <summary>Forecasts of many batches at once: the same queries for one as for all.</summary>
internal static class BatchForecasts
{
    /// <summary>Of batches that grow: sown, and neither handed over nor discarded.</summary>
    public static IQueryable<BatchRow> Running(IQueryable<BatchRow> rows) => rows.Where(row => row.Batch.State.SownOn != null
        && row.Batch.State.Stage != BatchStage.HandedOver && row.Batch.State.Stage != BatchStage.Discarded);

    /// <returns>The forecasts, and the chance of a seed of any other lot where such a batch stands.</returns>
    public static async Task<(IReadOnlyList<ForecastMaking> Batches, Func<ForecastGround, Variety, SeedLot, SeedChance?> ChanceOf)> LoadAsync(
        NurseryDbContext database, Site site, IQueryable<BatchRow> chosen, TimeProvider time, CancellationToken cancellation)
    {
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var today = site.DayOf(now);
        var grounds = await ForecastGrounds.LoadAsync(database, site, chosen, now, cancellation);
        SeedChance? ChanceOf(ForecastGround ground, Variety variety, SeedLot? lot)
        {
            var normal = Crops.FindCropEmergence.Of(ground.Row.Crop).Published?.Normal.At(ground.Heat.First) ?? new Agronomy.Fraction(1);
            try
            {
                var prior = Agronomy.Sowing.SeedPrior.Of(new Agronomy.Fraction((double)(lot?.LabelGermination ?? PlanFromOrders.GerminationWithoutLot)), normal);
                return new SeedChance(prior, new How("chance of a seed", "label", [], "", "docs/agronomy/sowing.md"));
            }
            catch (Agronomy.InputOutOfRange)
            {
                return null;
            }
        }

        return ([.. grounds.Select(ground => ForecastMaking.Of(ground, ChanceOf(ground, ground.Row.Variety, ground.Lot), today))], ChanceOf);
    }
}
