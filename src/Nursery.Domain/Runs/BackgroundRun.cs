using NodaTime;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Runs;

/// <summary>Long work in the background: how far it is, and what came of it. Kept, so that anyone can look at it later.</summary>
public sealed class BackgroundRun
{
    public required Id<BackgroundRun> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required RunKind Kind { get; init; }
    public required RunState State { get; set; }
    public int Done { get; set; }
    public int Total { get; set; }

    /// <summary>What it works on now, or why it failed.</summary>
    public string? Message { get; set; }
    public required Guid StartedById { get; init; }
    public required string StartedBy { get; init; }

    /// <summary>The device it was started from: entries it writes name it.</summary>
    public string? Device { get; init; }
    public required Instant StartedAt { get; init; }

    /// <summary>Its last sign of life. A run that gives none for <see cref="Patience"/> is dead.</summary>
    public required Instant AliveAt { get; set; }
    public Instant? EndedAt { get; set; }
    public bool StopRequested { get; set; }

    /// <summary>What came of it so far, as JSON of its kind's own record.</summary>
    public string? Result { get; set; }

    /// <summary>Much longer than any step between two signs of life takes, and short enough to wait for.</summary>
    public static Duration Patience { get; } = Duration.FromMinutes(2);

    public bool IsLive => State is RunState.Queued or RunState.Running;
}
