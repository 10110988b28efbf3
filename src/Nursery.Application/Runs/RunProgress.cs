using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;
using NodaTime;
using NodaTime.Serialization.SystemTextJson;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;

namespace Nursery.Application.Runs;

/// <summary>How a run tells how far it is, and hears that it should stop. Only a live run can tell: what was marked as
/// interrupted or stopped meanwhile stays so.</summary>
internal sealed partial class RunProgress(IDbContextFactory<NurseryDbContext> databases, Id<BackgroundRun> id, TimeProvider time)
{
    /// <summary>The database keeps members in an order of its own, so what kind something is may stand last.</summary>
    private static readonly JsonSerializerOptions Json =
        new JsonSerializerOptions(JsonSerializerDefaults.Web) { AllowOutOfOrderMetadataProperties = true }.ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);

    /// <summary>Takes a queued run, does its work in the name of whoever started it, and says how it ended.</summary>
    /// <param name="work">Answers whether all was done: false when it was stopped.</param>
    /// <param name="log">Told why it failed.</param>
    /// <param name="cancellation">The server goes down in order.</param>
    public async Task WorkAsync(Func<BackgroundRun, Actor, Task<bool>> work, ILogger log, CancellationToken cancellation)
    {
        if (await TakeAsync(cancellation) is not { } run)
        {
            return;
        }

        // It was checked at the start that they may.
        var actor = new Actor(run.StartedById, run.StartedBy, run.SiteId, new HashSet<Right> { RunRights.For(run.Kind) }, run.Device);
        try
        {
            var all = await work(run, actor);
            await EndAsync(all ? RunState.Done : RunState.Stopped, null, cancellation);
        }
        catch (OperationCanceledException)
        {
            // Whoever looks is told at once that the server went down.
            await EndAsync(RunState.Interrupted, null, CancellationToken.None);
            throw;
        }
        catch (Exception failure)
        {
            LogFailed(log, run.Kind, id.Value, failure);
            var why = failure is Refusal ? failure.Message : "Something went wrong in the program; its log says what";
            await EndAsync(RunState.Failed, why, CancellationToken.None);
        }
    }

    /// <summary>Takes a queued run.</summary>
    /// <returns>Null when it is not queued any more: it was stopped, given up as dead, or another server has it.</returns>
    private async Task<BackgroundRun?> TakeAsync(CancellationToken cancellation)
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
        var json = JsonOf(result);
        await database.BackgroundRuns.Where(run => run.Id == id && run.State == RunState.Running).ExecuteUpdateAsync(
            set => set.SetProperty(run => run.Done, done).SetProperty(run => run.Total, total).SetProperty(run => run.Message, message)
                .SetProperty(run => run.AliveAt, now).SetProperty(run => run.Result, json),
            cancellation);
        return await database.BackgroundRuns.AnyAsync(
            run => run.Id == id && run.State == RunState.Running && !run.StopRequested, cancellation);
    }

    private async Task EndAsync(RunState state, string? message, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var now = LiveRuns.Now(time);
        await database.BackgroundRuns.Where(run => run.Id == id && run.State == RunState.Running).ExecuteUpdateAsync(
            set => set.SetProperty(run => run.State, state).SetProperty(run => run.Message, message)
                .SetProperty(run => run.AliveAt, now).SetProperty(run => run.EndedAt, now),
            cancellation);
    }

    public static string JsonOf<T>(T result) => JsonSerializer.Serialize(result, Json);

    public static T? ResultOf<T>(BackgroundRun run) => run.Result is null ? default : JsonSerializer.Deserialize<T>(run.Result, Json);

    [LoggerMessage(Level = LogLevel.Error, Message = "{Kind} run {Id} failed")]
    private static partial void LogFailed(ILogger log, RunKind kind, Guid id, Exception failure);
}
