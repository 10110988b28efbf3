using Nursery.Domain.Batches;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Set the trays apart the crop's days after emergence, before the leaves of neighbors close over each other.</summary>
public static class SpacingRule
{
    public static DueTask? For(BatchFacts facts)
    {
        if (facts.State.SownOn is null
            || facts.UpOn is not { } up
            || facts.State.SpacedOn is not null
            || facts.State.Stage >= BatchStage.Ready
            || facts.Crop.SpaceDays is not { } days)
        {
            return null;
        }

        return new DueTask(
            TaskKind.Spacing, 1, up.PlusDays(days), $"Up since {Day(up)}; {Days(days)} later leaves begin to touch: set {Trays(facts.Trays)} apart where the bench has room");
    }
}
