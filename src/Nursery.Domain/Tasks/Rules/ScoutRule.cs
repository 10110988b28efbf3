using NodaTime;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Scout every house with trays for pests and disease once a week.</summary>
public static class ScoutRule
{
    private const int EveryDays = 7;

    public static DueTask? For(PlaceFacts facts)
    {
        if (facts.Since is not { } since)
        {
            return null;
        }

        // A house that stood empty since the last time is scouted as soon as there is something to find.
        var due = facts.DoneOn is { } done ? LocalDate.Max(done.PlusDays(EveryDays), since) : since.PlusDays(EveryDays);
        var last = facts.DoneOn is { } on ? $"last scouted {Day(on)}" : $"in use since {Day(since)}, not scouted yet";
        return new DueTask(
            TaskKind.Scout,
            facts.NextOccurrence,
            due,
            $"{Many(facts.Batches, "batch", "batches")} in {Trays(facts.Trays)}, {last}: every {Days(EveryDays)}, leaves from below, sticky cards, roots of a few plugs");
    }
}
