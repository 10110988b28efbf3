using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Houses;
using Nursery.Domain.Sites;

namespace Nursery.Domain.Tasks;

/// <summary>A task ('task' on screens and paper): identified by kind, subject and occurrence. The subject is a batch, a bench or
/// a house. The due day is no part of the identity and follows the plan while the task is open.</summary>
public sealed class RoundTask
{
    public required Id<RoundTask> Id { get; init; }
    public required Id<Site> SiteId { get; init; }
    public required TaskKind Kind { get; init; }
    public Id<Batch>? BatchId { get; init; }
    public Id<Bench>? BenchId { get; init; }
    public Id<House>? HouseId { get; init; }

    /// <summary>The one id of the three above; the database computes it.</summary>
    public Guid SubjectId { get; private set; }

    /// <summary>1 for what is done once; 1 + those closed for what repeats.</summary>
    public required int Occurrence { get; init; }
    public required LocalDate DueOn { get; set; }
    public required string Why { get; set; }
    public TaskState State { get; set; }
    public LocalDate? DoneOn { get; set; }
    public string? DoneBy { get; set; }

    public static RoundTask About(
        TaskSubject subject, Id<RoundTask> id, TaskKind kind, int occurrence, LocalDate dueOn, string why) => new()
        {
            Id = id,
            SiteId = subject.Site,
            Kind = kind,
            BatchId = subject.Batch,
            BenchId = subject.Bench,
            HouseId = subject.House,
            SubjectId = subject.Id,
            Occurrence = occurrence,
            DueOn = dueOn,
            Why = why,
        };
}
