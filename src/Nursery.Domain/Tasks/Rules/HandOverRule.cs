using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Hand over on the day an order names, else on the planned day.</summary>
public static class HandOverRule
{
    public static DueTask? For(BatchFacts facts)
    {
        if (facts.State.SownOn is null)
        {
            return null;
        }

        var reason = facts.WantedOn is null ? "no order names it" : "an order wants them that day";
        return new DueTask(
            TaskKind.HandOver, 1, facts.WantedOn ?? facts.Batch.ReadyOn, $"Planned ready {Day(facts.Batch.ReadyOn)}; {reason}");
    }
}
