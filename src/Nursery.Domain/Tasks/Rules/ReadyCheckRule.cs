using NodaTime;
using Nursery.Domain.Batches;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Say whether plants are ready, some days before they must be, and again until someone says so.</summary>
public static class ReadyCheckRule
{
    private const int LeadDays = 2;
    private const int AgainDays = 2;

    public static DueTask? For(BatchFacts facts)
    {
        var state = facts.State;
        if (state.SownOn is not { } sown || state.Stage >= BatchStage.Ready)
        {
            return null;
        }

        var first = LocalDate.Max(facts.ReadyBy.PlusDays(-LeadDays), sown.PlusDays(1));
        var due = state.ReadyLookedOn is { } looked ? LocalDate.Max(first, looked.PlusDays(AgainDays)) : first;
        var before = state.ReadyLookedOn is { } on ? $"; not ready on {Day(on)}" : "";
        return new DueTask(
            TaskKind.ReadyCheck,
            facts.Next(TaskKind.ReadyCheck),
            due,
            $"Sown {Day(sown)}, ready by {Day(facts.ReadyBy)}: do roots hold the plug, are the leaves enough?{before}");
    }
}
