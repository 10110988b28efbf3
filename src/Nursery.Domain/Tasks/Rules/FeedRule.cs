using NodaTime;
using Nursery.Domain.Batches;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Feed from the crop's days after emergence on, and again every so many days, until hardening off begins. None before the
/// seed leaves are open.</summary>
public static class FeedRule
{
    public static DueTask? For(BatchFacts facts)
    {
        if (facts.State.SownOn is null
            || facts.UpOn is not { } up
            || facts.State.Stage >= BatchStage.HardeningOff
            || facts.Crop.FeedFromDays is not { } from
            || facts.Crop.FeedEveryDays is not { } every)
        {
            return null;
        }

        var first = up.PlusDays(from);
        var due = facts.State.FedOn is { } fed ? LocalDate.Max(first, fed.PlusDays(every)) : first;
        var last = facts.State.FedOn is { } on ? $"last fed {Day(on)}" : "not fed yet";
        return new DueTask(
            TaskKind.Feed,
            facts.Next(TaskKind.Feed),
            due,
            $"Up since {Day(up)}, {last}; every {Days(every)} from {Days(from)} after emergence. Weak until true leaves open; the product's label says how much");
    }
}
