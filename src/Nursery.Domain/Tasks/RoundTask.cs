using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Tasks;

/// <summary>A task ('task' on screens and paper): identified by kind, batch and occurrence. The due day is no part of
/// the identity and follows the plan while the task is open.</summary>
public sealed class RoundTask
{
    public required Id<RoundTask> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required TaskKind Kind { get; init; }
    public required Id<Batch> BatchId { get; init; }

    /// <summary>1 for what is done once; 1 + those closed for what repeats.</summary>
    public required int Occurrence { get; init; }
    public required LocalDate DueOn { get; set; }
    public required string Why { get; set; }
    public TaskState State { get; set; }
    public LocalDate? DoneOn { get; set; }
    public string? DoneBy { get; set; }
}
