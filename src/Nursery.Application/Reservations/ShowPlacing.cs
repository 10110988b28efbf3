using Microsoft.EntityFrameworkCore;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Reservations;

/// <summary>A placing run, or the site's latest.</summary>
public sealed class ShowPlacing(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <param name="id">Null is the latest.</param>
    /// <returns>Null when there was none on the site yet.</returns>
    /// <exception cref="NotFound">No placing run of that id on the site.</exception>
    public async Task<PlacingRun?> HandleAsync(Guid? id, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        await LiveRuns.BuryAsync(database, time, cancellation);
        var runs = database.BackgroundRuns.AsNoTracking().Where(run => run.SiteId == actor.SiteId && run.Kind == RunKind.FirstFit);
        if (id is null)
        {
            return await runs.OrderByDescending(run => run.StartedAt).ThenByDescending(run => run.Id)
                .FirstOrDefaultAsync(cancellation) is { } latest ? PlacingRun.From(latest) : null;
        }

        var wanted = new Id<BackgroundRun>(id.Value);
        return await runs.SingleOrDefaultAsync(run => run.Id == wanted, cancellation) is { } found
            ? PlacingRun.From(found)
            : throw new NotFound("placing run", "id", id.Value.ToString());
    }
}
