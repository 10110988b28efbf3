using NodaTime;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks.Rules;

namespace Nursery.Domain.Tasks;

/// <summary>All the rules, one per kind of task, each in its own file in Rules. A rule returns the one task that should be open, or null.
/// Day counts are common practice, no source, unless the crop profile gives them or the rule says so.</summary>
public static class TaskRules
{
    /// <summary>Tasks are raised when due within this many days.</summary>
    public const int HorizonDays = 30;

    private static readonly Func<BatchFacts, DueTask?>[] WhileItLives =
    [
        SowRule.For,
        FirstWateringRule.For,
        WaterRule.For,
        EmergenceCheckRule.For,
        MoveOffHeatRule.For,
        ThinRule.For,
        FeedRule.For,
        SpacingRule.For,
        HardenOffRule.For,
        ReadyCheckRule.For,
        HandOverRule.For,
    ];

    private static readonly Func<BatchFacts, DueTask?>[] WhenItIsGone = [ClearBenchRule.For];

    /// <summary>Every task that should be open for a batch on a day, at most one a kind.</summary>
    public static IReadOnlyList<DueTask> Wanted(BatchFacts facts)
    {
        var rules = facts.State.Stage is BatchStage.HandedOver or BatchStage.Discarded ? WhenItIsGone : WhileItLives;
        return Due(rules.Select(rule => rule(facts)), facts.Today);
    }

    /// <summary>Every task that should be open for a bench or a house.</summary>
    public static IReadOnlyList<DueTask> Wanted(PlaceFacts facts) =>
        Due([facts.Subject.Bench is null ? ScoutRule.For(facts) : LookRule.For(facts)], facts.Today);

    private static IReadOnlyList<DueTask> Due(IEnumerable<DueTask?> tasks, LocalDate today) =>
        [.. tasks.OfType<DueTask>().Where(task => task.DueOn <= today.PlusDays(HorizonDays))];
}
