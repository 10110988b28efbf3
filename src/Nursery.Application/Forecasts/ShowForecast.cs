using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Forecasts.Curves;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Forecasts;

/// <summary>A batch's forecast with its curve; the curve is null where nothing can be expected.</summary>
public sealed record ForecastView(BatchForecast Forecast, EmergenceBands? Bands);

/// <summary>What is to be expected of a batch: against its counts once there are some, by label, house and temperature before.</summary>
public sealed class ShowForecast(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <param name="batch">Its code or id.</param>
    /// <param name="actor">Who asks.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="NotFound">No such batch on the actor's site.</exception>
    public async Task<ForecastView> HandleAsync(string batch, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var rows = database.BatchRows(site.Id);
        Id<Batch>? id = Guid.TryParse(batch, out var guid) ? new Id<Batch>(guid) : null;
        var chosen = id is { } known ? rows.Where(row => row.Batch.Id == known) : rows.Where(row => row.Batch.Code == batch);
        var making = (await BatchForecasts.LoadAsync(database, site, chosen, time, cancellation)).Batches.SingleOrDefault()
            ?? throw new NotFound("batch", "code", batch);
        return new ForecastView(making.Forecast, EmergenceBands.Of(making));
    }
}
