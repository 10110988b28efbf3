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
public sealed record BatchFacts(
    Batch Batch,
    Crop Crop,
    int Trays,
    decimal? ExpectedFraction,
    LocalDate? WantedOn,
    IReadOnlyDictionary<TaskKind, int> NextOccurrence,
    LocalDate Today,
    string? SharedPart = null);
