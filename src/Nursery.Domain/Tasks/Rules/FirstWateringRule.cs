using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Water the first time on the day of sowing, until it runs through: only then does germination start.</summary>
public static class FirstWateringRule
{
    public static DueTask? For(BatchFacts facts) => facts.State is { SownOn: { } sown, WateredOn: null }
        ? new DueTask(
            TaskKind.FirstWatering, 1, sown, $"Sown {Day(sown)}, not watered yet: water {Trays(facts.Trays)} until it runs through; germination starts with it")
        : null;
}
