using NodaTime;
using Nursery.Domain.Batches;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Clear and clean the spaces of a batch that was handed over or given up. After two weeks nobody is asked any more: other trays
/// stand there, or the work was done and not said.</summary>
public static class ClearBenchRule
{
    private const int AskedForDays = 14;

    public static DueTask? For(BatchFacts facts)
    {
        var state = facts.State;
        var gone = state.Stage == BatchStage.HandedOver ? state.HandedOverOn : state.DiscardedOn;
        if (state.SownOn is null || state.ClearedOn is not null || gone is not { } day || facts.Today > day.PlusDays(AskedForDays))
        {
            return null;
        }

        var what = state.Stage == BatchStage.HandedOver ? "Handed over" : "Given up";
        return new DueTask(
            TaskKind.ClearBench, 1, day, $"{what} {Day(day)}: take away what is left of {Trays(facts.Trays)}, clean the spaces, wash the trays");
    }
}
