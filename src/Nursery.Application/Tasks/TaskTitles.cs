using Nursery.Domain.Tasks;

namespace Nursery.Application.Tasks;

/// <summary>What a kind of task is called, the same on the round, in lists and on paper.</summary>
public static class TaskTitles
{
    public static string Of(TaskKind kind) => kind switch
    {
        TaskKind.Sow => "Sow",
        TaskKind.FirstWatering => "First watering",
        TaskKind.Look => "Look at the bench",
        TaskKind.Water => "Water",
        TaskKind.EmergenceCheck => "Check for emergence",
        TaskKind.MoveOffHeat => "Move off heat",
        TaskKind.Thin => "Thin to one a cell",
        TaskKind.Feed => "Feed",
        TaskKind.Spacing => "Set trays apart",
        TaskKind.HardenOff => "Harden off",
        TaskKind.ReadyCheck => "Check whether ready",
        TaskKind.HandOver => "Hand over",
        TaskKind.ClearBench => "Clear the spaces",
        TaskKind.Scout => "Scout for pests",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "a kind of task without a title"),
    };

    /// <summary>Within a sentence: "move off heat".</summary>
    public static string Within(TaskKind kind) => Of(kind).ToLowerInvariant();
}
