using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Scenario;

/// <summary>The care of a batch that its file does not tell, for it came every day or week: done on the days the rules asked for it.</summary>
internal sealed class RoutineCare(Crop crop, int trays, Batch batch)
{
    private static readonly TaskKind[] Kinds = [TaskKind.FirstWatering, TaskKind.Water, TaskKind.Feed, TaskKind.Spacing];

    private readonly Dictionary<TaskKind, int> _next = [];

    /// <summary>What the ledger says of the batch by now.</summary>
    public BatchState State { get; set; } = batch.State;

    /// <summary>How its bench was last seen.</summary>
    public SurfaceMark? Surface { get; set; }

    /// <summary>Where it grew by then and with what.</summary>
    public CareGround? Care { get; set; }

    /// <summary>What is reported on a day; asked for once a day, in order. Who looked whether they are ready found them not so yet.</summary>
    public IReadOnlyList<EntryValue> On(LocalDate day)
    {
        var facts = new BatchFacts(batch, crop, trays, null, null, _next, day, Surface: Surface, Care: Care) { State = State };
        var reported = new List<EntryValue>();
        foreach (var task in TaskRules.Wanted(facts).Where(task => task.DueOn <= day))
        {
            if (task.Kind == TaskKind.ReadyCheck)
            {
                reported.Add(new NotYet(task.Kind, task.Occurrence, "not ready yet"));
                State = State with { ReadyLookedOn = day };
            }
            else if (Kinds.Contains(task.Kind))
            {
                reported.Add(new Done(task.Kind, task.Occurrence));
                _next[task.Kind] = task.Occurrence + 1;
                State = BatchStory.AfterTask(State, task.Kind, day);
                Care = task.Kind is TaskKind.Water or TaskKind.FirstWatering && Care is { } care
                    ? care with { Waterings = [.. care.Waterings ?? [], day] }
                    : Care;
            }
        }

        return reported;
    }
}
