using NodaTime;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Look at every bench with trays once a day; no forecast ever takes its place. The day trays are put there is a look already.</summary>
public static class LookRule
{
    private const int EveryDays = 1;

    public static DueTask? For(PlaceFacts facts)
    {
        if (facts.Since is not { } since)
        {
            return null;
        }

        var due = LocalDate.Max(since, facts.DoneOn ?? since).PlusDays(EveryDays);
        var last = facts.DoneOn is { } looked ? $"last looked at {Day(looked)}" : "not looked at yet";
        return new DueTask(
            TaskKind.Look,
            facts.NextOccurrence,
            due,
            $"{Many(facts.Batches, "batch", "batches")} in {Trays(facts.Trays)}, {last}: wilting, damping-off, pests, heat and surface, once a day");
    }
}
