using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Runs;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Papers;

/// <summary>Prints of many tray tags: one, or those of the last day, newest first.</summary>
public sealed class ShowTagsRuns(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<IReadOnlyList<TagsRun>> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var since = LiveRuns.Now(time) - KeptPrint.Keep;
        return await ReadAsync(runs => runs.Where(run => run.StartedAt > since || run.EndedAt > since), actor, cancellation);
    }

    /// <exception cref="NotFound">No such print on this site.</exception>
    public async Task<TagsRun> HandleAsync(Guid id, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        var wanted = new Id<BackgroundRun>(id);
        return (await ReadAsync(runs => runs.Where(run => run.Id == wanted), actor, cancellation)).SingleOrDefault()
            ?? throw new NotFound("print of tags", "id", id.ToString());
    }

    private async Task<IReadOnlyList<TagsRun>> ReadAsync(
        Func<IQueryable<BackgroundRun>, IQueryable<BackgroundRun>> which, Actor actor, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        await LiveRuns.BuryAsync(database, time, cancellation);
        var now = LiveRuns.Now(time);
        var runs = database.BackgroundRuns.AsNoTracking().Where(run => run.SiteId == actor.SiteId && run.Kind == RunKind.TrayTags);
        var rows = await (
            from run in which(runs)
            join kept in database.KeptPrints.Where(print => print.KeptUntil > now) on run.Id equals kept.Id into prints
            from print in prints.DefaultIfEmpty()
            orderby run.StartedAt descending, run.Id descending
            select new { run, Bytes = (int?)print.Bytes, KeptUntil = (Instant?)print.KeptUntil }).ToListAsync(cancellation);
        return [.. rows.Select(row => TagsRun.From(row.run, row.Bytes, row.KeptUntil))];
    }
}
