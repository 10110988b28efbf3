using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Data;
using Nursery.Domain.Batches;
using Nursery.Domain.Sites;

namespace Nursery.Application.Forecasts;

/// <summary>Forecasts of many batches at once: the same queries for one as for all.</summary>
internal static class BatchForecasts
{
    /// <summary>Of batches that grow: sown, and neither handed over nor discarded.</summary>
    public static IQueryable<BatchRow> Running(IQueryable<BatchRow> rows) => rows.Where(row => row.Batch.State.SownOn != null
        && row.Batch.State.Stage != BatchStage.HandedOver && row.Batch.State.Stage != BatchStage.Discarded);

    /// <returns>The forecasts, and the chances of seeds they were made with.</returns>
    public static async Task<(IReadOnlyList<ForecastMaking> Batches, SeedChances Chances)> LoadAsync(
        NurseryDbContext database, Site site, IQueryable<BatchRow> chosen, TimeProvider time, CancellationToken cancellation)
    {
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());
        var today = site.DayOf(now);
        var grounds = await ForecastGrounds.LoadAsync(database, site, chosen, now, cancellation);
        var chances = await SeedChances.LoadAsync(database, site, today, cancellation);
        return (
            [.. grounds.Select(ground => ForecastMaking.Of(ground, chances.Of(ground.Asked(ground.Lot, ground.SownOn) with { Except = ground.Row.Batch.Id.Value }), today))],
            chances);
    }
}
