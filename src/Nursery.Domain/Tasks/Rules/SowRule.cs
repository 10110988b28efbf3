using NodaTime;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Sow on the planned day.</summary>
public static class SowRule
{
    public static DueTask? For(BatchFacts facts)
    {
        if (facts.State.SownOn is not null)
        {
            return null;
        }

        var batch = facts.Batch;
        var wanted = facts.WantedOn ?? batch.ReadyOn;
        var days = Period.DaysBetween(batch.SowOn, wanted);
        return new DueTask(
            TaskKind.Sow, 1, batch.SowOn, $"{facts.SharedPart ?? Trays(facts.Trays)}, {Seeds(batch.SeedsPerCell)} a cell; wanted {Day(wanted)}, {Days(days)} after sowing");
    }
}
