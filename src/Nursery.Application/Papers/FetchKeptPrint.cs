using Microsoft.EntityFrameworkCore;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Papers;

/// <summary>The PDF a print in the background made, as long as it is kept.</summary>
public sealed class FetchKeptPrint(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="NotFound">Not made on this site, not ready, or thrown away.</exception>
    public async Task<byte[]> HandleAsync(Guid run, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var (id, now) = (new Id<BackgroundRun>(run), LiveRuns.Now(time));
        await using var database = await databases.CreateDbContextAsync(cancellation);
        return await database.KeptPrints
            .Where(print => print.Id == id && print.SiteId == actor.SiteId && print.KeptUntil > now)
            .Select(print => print.Pdf).SingleOrDefaultAsync(cancellation)
            ?? throw new NotFound("kept print", "id", run.ToString());
    }
}
