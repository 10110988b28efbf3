using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;

namespace Nursery.Domain.Tasks;

/// <summary>All a task rule may look at.</summary>
/// <param name="Batch">The batch with its folded state.</param>
/// <param name="Crop">Its crop profile.</param>
/// <param name="Trays">Trays it lies in.</param>
/// <param name="ExpectedFraction">Label germination of its lot, 0–1; null when no lot is known.</param>
/// <param name="WantedOn">Earliest day an order wants its plants; null without orders.</param>
/// <param name="NextOccurrence">By kind, the lowest occurrence not closed; 1 when the kind is missing.</param>
/// <param name="Today">The site's day.</param>
/// <param name="SharedPart">Which rows of cells of which trays, when it shares them; null when the trays are its own.</param>
/// <param name="Surface">How the mix of its bench was last seen; null when nobody said.</param>
/// <param name="Care">What its watering and feeding go by; null where nobody knows, then the calendar stands.</param>
public sealed record BatchFacts(
    Batch Batch,
    Crop Crop,
    int Trays,
    decimal? ExpectedFraction,
    LocalDate? WantedOn,
    IReadOnlyDictionary<TaskKind, int> NextOccurrence,
    LocalDate Today,
    string? SharedPart = null,
    SurfaceMark? Surface = null,
    CareGround? Care = null)
{
    /// <summary>What the ledger says of the batch; another one to ask what would follow.</summary>
    public BatchState State { get; init; } = Batch.State;

    /// <summary>The day since when plants are up: seen, or taken for so because the trays left the heat.</summary>
    public LocalDate? UpOn => State.FirstUpOn ?? State.OffHeatOn;

    /// <summary>The day the plants must be ready: as planned, or earlier when an order wants them earlier.</summary>
    public LocalDate ReadyBy => WantedOn is { } wanted ? LocalDate.Min(wanted, Batch.ReadyOn) : Batch.ReadyOn;

    public int Next(TaskKind kind) => NextOccurrence.GetValueOrDefault(kind, 1);
}
