using NodaTime;
using Nursery.Domain.Batches;

namespace Nursery.Domain.Tasks;

/// <summary>What there will be to do if every task is done on the day it is due and nothing else happens.</summary>
public static class TaskForecast
{
    /// <summary>The tasks of a batch by the day they would be done, from today on; what is late is done today. A sowing is taken to be as
    /// planned, a first look to find plants.</summary>
    /// <param name="facts">The batch as it is today.</param>
    /// <param name="days">Days to look ahead, today counted, 1 or more.</param>
    public static IEnumerable<(LocalDate Day, TaskKind Kind)> Of(BatchFacts facts, int days)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        var today = facts.Today;
        for (var day = today; day < today.PlusDays(days); day = day.PlusDays(1))
        {
            facts = facts with { Today = day };
            var done = new HashSet<TaskKind>();
            while (TaskRules.Wanted(facts).FirstOrDefault(task => task.DueOn <= day && !done.Contains(task.Kind)) is { } task)
            {
                done.Add(task.Kind);
                facts = facts with { State = After(facts, task.Kind, day) };
                yield return (day, task.Kind);
            }
        }
    }

    /// <summary>The tasks of a bench or a house, with what stands there now.</summary>
    /// <param name="facts">The place as it is today.</param>
    /// <param name="days">Days to look ahead, today counted, 1 or more.</param>
    public static IEnumerable<(LocalDate Day, TaskKind Kind)> Of(PlaceFacts facts, int days)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        var today = facts.Today;
        for (var day = today; day < today.PlusDays(days); day = day.PlusDays(1))
        {
            facts = facts with { Today = day };
            if (TaskRules.Wanted(facts).FirstOrDefault(task => task.DueOn <= day) is { } task)
            {
                facts = facts with { DoneOn = day, NextOccurrence = facts.NextOccurrence + 1 };
                yield return (day, task.Kind);
            }
        }
    }

    private static BatchState After(BatchFacts facts, TaskKind kind, LocalDate day) => kind == TaskKind.Sow
        ? new BatchState
        {
            Stage = BatchStage.Sown,
            SownOn = day,
            SeedsSown = facts.Batch.Cells * facts.Batch.SeedsPerCell,
            CellsSown = facts.Batch.Cells,
        }
        : BatchStory.AfterTask(facts.State, kind, day);
}
