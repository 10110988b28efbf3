using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Runs;

internal static class LiveRuns
{
    /// <summary>Adds a run of a kind to the context, in the name of whoever starts it.</summary>
    /// <exception cref="RunUnderWay">There is one already.</exception>
    public static async Task<BackgroundRun> BeginAsync(
        NurseryDbContext database, RunKind kind, int total, Actor actor, TimeProvider time, CancellationToken cancellation)
    {
        await BuryAsync(database, time, cancellation);
        var live = await database.BackgroundRuns.AsNoTracking().SingleOrDefaultAsync(
            run => run.SiteId == actor.SiteId && run.Kind == kind && (run.State == RunState.Queued || run.State == RunState.Running),
            cancellation);
        if (live is not null)
        {
            throw new RunUnderWay(live.Id.Value, live.StartedBy, live.Done, live.Total);
        }

        var run = new BackgroundRun
        {
            Id = NewId.Of<BackgroundRun>(time),
            SiteId = actor.SiteId,
            Kind = kind,
            State = RunState.Queued,
            Total = total,
            StartedById = actor.Id,
            StartedBy = actor.Name,
            Device = actor.Device,
            StartedAt = Now(time),
            AliveAt = Now(time),
        };
        database.BackgroundRuns.Add(run);
        return run;
    }

    /// <summary>Runs without a sign of life are marked as interrupted: their server is gone.</summary>
    public static Task<int> BuryAsync(NurseryDbContext database, TimeProvider time, CancellationToken cancellation)
    {
        var now = Now(time);
        var since = now - BackgroundRun.Patience;
        return database.BackgroundRuns
            .Where(run => (run.State == RunState.Queued || run.State == RunState.Running) && run.AliveAt < since)
            .ExecuteUpdateAsync(
                set => set.SetProperty(run => run.State, RunState.Interrupted).SetProperty(run => run.EndedAt, now), cancellation);
    }

    public static Instant Now(TimeProvider time) => Instant.FromDateTimeOffset(time.GetUtcNow());
}
