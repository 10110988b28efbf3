using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Thin to one a cell at the first true leaf: the crop's days after emergence.</summary>
public static class ThinRule
{
    public static DueTask? For(BatchFacts facts)
    {
        if (facts.State.SownOn is null
            || facts.UpOn is not { } up
            || facts.State.ThinnedOn is not null
            || facts.Batch.SeedsPerCell < 2
            || facts.Crop.ThinDaysAfterEmergence is not { } days)
        {
            return null;
        }

        return new DueTask(
            TaskKind.Thin, 1, up.PlusDays(days), $"Up since {Day(up)}; thin to one a cell {Days(days)} later, at the first true leaf; {Many(facts.Batch.Cells, "cell", "cells")}");
    }
}
