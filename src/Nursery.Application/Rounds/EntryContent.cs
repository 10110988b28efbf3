using System.Text.Json.Serialization;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Rounds;

/// <summary>What a client reports, one record a kind.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(TaskDone), "done")]
[JsonDerivedType(typeof(EntryUndone), "undo")]
[JsonDerivedType(typeof(TaskNotYet), "notYet")]
[JsonDerivedType(typeof(PlantsCounted), "count")]
[JsonDerivedType(typeof(SurfaceSeen), "surface")]
[JsonDerivedType(typeof(PlantsLost), "loss")]
[JsonDerivedType(typeof(TraysMoved), "moved")]
[JsonDerivedType(typeof(WorkDone), "worked")]
public abstract record EntryContent;

public sealed record TaskDone(Guid TaskId) : EntryContent;

public sealed record EntryUndone(Guid EntryId) : EntryContent;

public sealed record TaskNotYet(Guid TaskId, string Reason) : EntryContent;

/// <param name="BatchId">The batch.</param>
/// <param name="What">What was counted.</param>
/// <param name="Value">How many.</param>
/// <param name="Trays">In which trays; without it and without cells: all of them.</param>
/// <param name="Cells">In how many cells; without it: all cells of the trays.</param>
/// <param name="Sample">Whether those stand for the rest.</param>
public sealed record PlantsCounted(Guid BatchId, CountWhat What, int Value, TrayChoice? Trays, int? Cells, bool Sample) : EntryContent;

public sealed record SurfaceSeen(string BenchCode, SurfaceState State) : EntryContent;

public sealed record PlantsLost(Guid BatchId, int Plants, string Cause) : EntryContent;

public sealed record TraysMoved(string TraySetCode, TrayChoice Trays, string BenchCode, int? FirstSpace) : EntryContent;

/// <summary>Work that was not on the list.</summary>
/// <param name="Task">Its kind when the tasks know it.</param>
/// <param name="BatchId">One batch; or</param>
/// <param name="BenchCode">everything that stands on a bench.</param>
/// <param name="Words">What was done, in words; needed when no kind fits.</param>
public sealed record WorkDone(TaskKind? Task, Guid? BatchId, string? BenchCode, string? Words) : EntryContent;
