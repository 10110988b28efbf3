using NodaTime;
using Nursery.Application.Runs;
using Nursery.Domain.Runs;

namespace Nursery.Application.Reservations;

/// <summary>A first-fit for all batches without a place: how far it is, and what came of it so far.</summary>
/// <param name="Done">Tray sets looked at, placed or not.</param>
/// <param name="Total">Tray sets without a place when it began.</param>
/// <param name="Message">The batch it is at, or why it failed.</param>
public sealed record PlacingRun(
    Guid Id, RunState State, int Done, int Total, string? Message, string StartedBy, Instant StartedAt, Instant? EndedAt,
    bool StopRequested, FirstFitReport Result)
{
    public bool IsLive => State is RunState.Queued or RunState.Running;

    internal static PlacingRun From(BackgroundRun run) => new(
        run.Id.Value, run.State, run.Done, run.Total, run.Message, run.StartedBy, run.StartedAt, run.EndedAt, run.StopRequested,
        RunProgress.ResultOf<FirstFitReport>(run) ?? new FirstFitReport([], []));
}
