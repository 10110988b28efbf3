using NodaTime;
using Nursery.Domain.Ledger;
using static Nursery.Domain.Tasks.Rules.RuleWords;

namespace Nursery.Domain.Tasks.Rules;

/// <summary>Water again: covered trays on heat about every other day, bare ones under light daily (common practice, no source). What
/// people see corrects the calendar: a dry surface is watered that day, a wet one is left alone a day longer.</summary>
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

        var onHeat = facts.State.OffHeatOn is null;
        var due = NextOn(watered, facts.State.OffHeatOn);
        var calendar = onHeat
            ? $"covered trays on heat want it about every {Days(EveryDaysOnHeat)}"
            : "bare under light they want it every day";

        // A mark of the day of watering may be older than the watering: it says nothing of the days after.
        return facts.Surface is { } seen && seen.Day > watered
            ? seen.State switch
            {
                SurfaceState.Dry => Again(facts, LocalDate.Min(due, seen.Day), $"Bench seen dry {Day(seen.Day)}; last watered {Day(watered)}"),
                SurfaceState.Wet => Again(
                    facts,
                    LocalDate.Max(due, seen.Day.PlusDays(WetRestDays)),
                    $"Bench seen wet {Day(seen.Day)}: not before {Day(LocalDate.Max(due, seen.Day.PlusDays(WetRestDays)))}; wet mix invites damping-off"),
                SurfaceState.Damp => Again(facts, due, $"Last watered {Day(watered)}; {calendar}; seen damp {Day(seen.Day)}"),
                _ => throw new ArgumentOutOfRangeException(nameof(facts), seen.State, "a surface without a rule"),
            }
            : Again(facts, due, $"Last watered {Day(watered)}; {calendar}");
    }

    /// <summary>The day water is due by the calendar alone.</summary>
    public static LocalDate NextOn(LocalDate wateredOn, LocalDate? offHeatOn) =>
        wateredOn.PlusDays(offHeatOn is null ? EveryDaysOnHeat : EveryDaysUnderLight);

    private static DueTask Again(BatchFacts facts, LocalDate due, string why) =>
        new(TaskKind.Water, facts.Next(TaskKind.Water), due, why);
}
