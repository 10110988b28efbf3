using NodaTime;
using Nursery.Application.Runs;
using Nursery.Domain.Runs;

namespace Nursery.Application.Papers;

/// <summary>A print of many tray tags in the background: how far it is, and until when its PDF is kept.</summary>
/// <param name="Request">What is printed.</param>
/// <param name="Done">Tags drawn.</param>
/// <param name="Total">Tags to draw.</param>
/// <param name="Message">Why it failed.</param>
/// <param name="Bytes">Length of the PDF; null while there is none, and when it is no longer kept.</param>
/// <param name="KeptUntil">When the PDF is thrown away; null while there is none, and when it is no longer kept.</param>
public sealed record TagsRun(
    Guid Id, TrayTagsRequest Request, RunState State, int Done, int Total, string? Message, string StartedBy, Instant StartedAt,
    Instant? EndedAt, bool StopRequested, int? Bytes, Instant? KeptUntil)
{
    public bool IsLive => State is RunState.Queued or RunState.Running;

    internal static TagsRun From(BackgroundRun run, int? bytes, Instant? keptUntil) => new(
        run.Id.Value, RunProgress.ResultOf<TrayTagsRequest>(run) ?? new TrayTagsRequest(), run.State, run.Done, run.Total, run.Message,
        run.StartedBy, run.StartedAt, run.EndedAt, run.StopRequested, bytes, keptUntil);
}
