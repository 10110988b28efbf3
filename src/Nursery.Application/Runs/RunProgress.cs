using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Serialization.SystemTextJson;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Runs;

namespace Nursery.Application.Runs;

/// <summary>How a run tells how far it is, and hears that it should stop. Only a live run can tell: what was marked as
/// interrupted or stopped meanwhile stays so.</summary>
internal sealed class RunProgress(IDbContextFactory<NurseryDbContext> databases, Id<BackgroundRun> id, TimeProvider time)
{
    private static readonly JsonSerializerOptions Json =
        new JsonSerializerOptions(JsonSerializerDefaults.Web).ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);

    /// <summary>Takes a queued run.</summary>
    /// <returns>Null when it is not queued any more: it was stopped, given up as dead, or another server has it.</returns>
    public async Task<BackgroundRun?> TakeAsync(CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var now = LiveRuns.Now(time);
        var taken = await database.BackgroundRuns.Where(run => run.Id == id && run.State == RunState.Queued).ExecuteUpdateAsync(
            set => set.SetProperty(run => run.State, RunState.Running).SetProperty(run => run.AliveAt, now), cancellation);
        return taken == 0 ? null : await database.BackgroundRuns.AsNoTracking().SingleAsync(run => run.Id == id, cancellation);
    }

    /// <returns>Whether it goes on: false when someone asked to stop, or when it was given up.</returns>
    public async Task<bool> ReportAsync<T>(int done, int total, string? message, T result, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var now = LiveRuns.Now(time);
        var json = JsonSerializer.Serialize(result, Json);
        await database.BackgroundRuns.Where(run => run.Id == id && run.State == RunState.Running).ExecuteUpdateAsync(
            set => set.SetProperty(run => run.Done, done).SetProperty(run => run.Total, total).SetProperty(run => run.Message, message)
                .SetProperty(run => run.AliveAt, now).SetProperty(run => run.Result, json),
            cancellation);
        return await database.BackgroundRuns.AnyAsync(
            run => run.Id == id && run.State == RunState.Running && !run.StopRequested, cancellation);
    }

    public async Task EndAsync(RunState state, string? message, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var now = LiveRuns.Now(time);
        await database.BackgroundRuns.Where(run => run.Id == id && run.State == RunState.Running).ExecuteUpdateAsync(
            set => set.SetProperty(run => run.State, state).SetProperty(run => run.Message, message)
                .SetProperty(run => run.AliveAt, now).SetProperty(run => run.EndedAt, now),
            cancellation);
    }

    public static T? ResultOf<T>(BackgroundRun run) => run.Result is null ? default : JsonSerializer.Deserialize<T>(run.Result, Json);
}
