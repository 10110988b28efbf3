using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;

namespace Nursery.Application.Forecasts;

/// <summary>Says on sowing day which batches' short stands could not be known in time, and what an insurance tray costs.</summary>
public sealed class ShowSowingRisks(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <param name="batches">Those to be sown, or sown already; all in the same few queries.</param>
    /// <param name="actor">Who asks.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <returns>By batch. Batches no order waits for risk nothing and are left out.</returns>
    public async Task<IReadOnlyDictionary<Guid, SowingRisk>> HandleAsync(
        IReadOnlyCollection<Guid> batches, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var ids = batches.Select(id => new Id<Batch>(id)).ToList();
        var (makings, _) = await BatchForecasts.LoadAsync(
            database, site, database.BatchRows(site.Id).Where(row => ids.Contains(row.Batch.Id)), time, cancellation);
        return makings.Select(SowingRisk.Of).OfType<SowingRisk>().ToDictionary(risk => risk.BatchId);
    }
}
