using NodaTime;
using Nursery.Domain.Ledger;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Water again when the trays are reckoned dry, by tray, stage, cover, mat, sun and what marks taught of the bench. Where that is
/// not known, covered trays on heat about every other day and bare ones under light daily (common practice, no source). What people
/// see corrects both: a dry surface is watered that day, a wet one is left alone a day longer. The daily look stays whatever is reckoned.</summary>
public static class WaterRule
{
    private const int EveryDaysOnHeat = 2;
    private const int EveryDaysUnderLight = 1;

    /// <summary>How long a wet surface is left alone before it is looked at for water again, days.</summary>
    private const int WetRestDays = 1;

    public static DueTask? For(BatchFacts facts)
    {
        if (facts.State is not { SownOn: not null, WateredOn: { } watered })
        {
            return null;
        }

        var drying = Drying.After(facts, watered);
        var onHeat = facts.State.OffHeatOn is null;
        var due = watered.PlusDays(drying?.DueDays ?? (onHeat ? EveryDaysOnHeat : EveryDaysUnderLight));
        var reckoned = drying?.Words
            ?? (onHeat ? $"covered trays on heat want it about every {Days(EveryDaysOnHeat)}" : "bare under light they want it every day");

        // A mark of the day of watering may be older than the watering: it says nothing of the days after.
        return facts.Surface is { } seen && seen.Day > watered
            ? seen.State switch
            {
                SurfaceState.Dry => Again(facts, LocalDate.Min(due, seen.Day), $"Bench seen dry {Day(seen.Day)}; last watered {Day(watered)}; {reckoned}"),
                SurfaceState.Wet => Again(
                    facts,
                    LocalDate.Max(due, seen.Day.PlusDays(WetRestDays)),
                    $"Bench seen wet {Day(seen.Day)}: not before {Day(LocalDate.Max(due, seen.Day.PlusDays(WetRestDays)))}; wet mix invites damping-off; {reckoned}"),
                SurfaceState.Damp => Again(facts, due, $"Last watered {Day(watered)}; {reckoned}; seen damp {Day(seen.Day)}"),
                _ => throw new ArgumentOutOfRangeException(nameof(facts), seen.State, "a surface without a rule"),
            }
            : Again(facts, due, $"Last watered {Day(watered)}; {reckoned}");
    }

    private static DueTask Again(BatchFacts facts, LocalDate due, string why) =>
        new(TaskKind.Water, facts.Next(TaskKind.Water), due, why);
}
