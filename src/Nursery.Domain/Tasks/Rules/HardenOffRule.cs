using NodaTime;
using Nursery.Domain.Batches;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Begin hardening off the crop's days before the plants must be ready.</summary>
public static class HardenOffRule
{
    public static DueTask? For(BatchFacts facts)
    {
        var days = facts.Crop.HardeningDays;
        if (facts.State.SownOn is not { } sown || facts.State.Stage >= BatchStage.HardeningOff || days == 0)
        {
            return null;
        }

        var due = LocalDate.Max(facts.ReadyBy.PlusDays(-days), sown.PlusDays(1));
        return new DueTask(
            TaskKind.HardenOff, 1, due, $"Ready by {Day(facts.ReadyBy)}; {Days(days)} of hardening off before it: more air, less water; tender plants back in on cold nights");
    }
}
