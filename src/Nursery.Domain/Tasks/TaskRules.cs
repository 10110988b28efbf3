using System.Globalization;
using NodaTime;
using Nursery.Domain.Batches;

namespace Nursery.Domain.Tasks;

/// <summary>One rule per kind of task. A rule returns the one task that should be open, or null.
/// The day counts below are common practice, no source, unless the crop profile gives them.</summary>
public static class TaskRules
{
    /// <summary>Tasks are raised when due within this many days.</summary>
    public const int HorizonDays = 30;

    /// <summary>Days between waterings: covered trays on heat want water about every other day, plants under light daily.</summary>
    private const int WaterEveryDaysOnHeat = 2;
    private const int WaterEveryDaysUnderLight = 1;

    /// <summary>First look for hooks at this share of the days to emergence, and again every so many days.</summary>
    private const double FirstLookShare = 0.7;
    private const int LookAgainDays = 2;

    /// <summary>Every task that should be open for a batch on a day, at most one a kind.</summary>
    public static IReadOnlyList<DueTask> Wanted(BatchFacts facts)
    {
        if (facts.Batch.State.Stage is BatchStage.HandedOver or BatchStage.Discarded)
        {
            return [];
        }

        var horizon = facts.Today.PlusDays(HorizonDays);
        return
        [
            .. new[] { Sow(facts), Water(facts), EmergenceCheck(facts), MoveOffHeat(facts), Thin(facts), HandOver(facts) }
                .OfType<DueTask>()
                .Where(task => task.DueOn <= horizon),
        ];
    }

    internal static DueTask? Sow(BatchFacts facts)
    {
        var batch = facts.Batch;
        if (batch.State.SownOn is not null)
        {
            return null;
        }

        var wanted = facts.WantedOn ?? batch.ReadyOn;
        var days = Period.DaysBetween(batch.SowOn, wanted);
        return Once(TaskKind.Sow, batch.SowOn, string.Create(
            CultureInfo.InvariantCulture,
            $"{facts.SharedPart ?? Trays(facts.Trays)}, {Seeds(batch.SeedsPerCell)} a cell; wanted {Day(wanted)}, {days} days after sowing"));
    }

    internal static DueTask? Water(BatchFacts facts)
    {
        var state = facts.Batch.State;
        if (state.SownOn is not { } sown)
        {
            return null;
        }

        var due = NextWateringOn(sown, state.WateredOn, state.OffHeatOn);
        if (state.WateredOn is not { } watered)
        {
            return Next(facts, TaskKind.Water, due, $"Sown {Day(sown)}, not watered yet: the first watering starts germination");
        }

        var reason = state.OffHeatOn is null ? "the surface must not dry before they are up" : "growing on under light";
        return Next(facts, TaskKind.Water, due, $"Last watered {Day(watered)}; {reason}");
    }

    /// <summary>The day water is due: the sowing day first, then by whether the trays are still on heat.</summary>
    public static LocalDate NextWateringOn(LocalDate sownOn, LocalDate? wateredOn, LocalDate? offHeatOn) => wateredOn is { } watered
        ? watered.PlusDays(offHeatOn is null ? WaterEveryDaysOnHeat : WaterEveryDaysUnderLight)
        : sownOn;

    internal static DueTask? EmergenceCheck(BatchFacts facts)
    {
        var state = facts.Batch.State;
        if (state.SownOn is not { } sown || state.OffHeatOn is not null)
        {
            return null;
        }

        var days = facts.Crop.DaysToEmergence;
        var firstLook = sown.PlusDays(Math.Max(1, (int)Math.Round(days * FirstLookShare, MidpointRounding.AwayFromZero)));
        var due = state.LookedOn is { } looked ? LocalDate.Max(firstLook, looked.PlusDays(LookAgainDays)) : firstLook;
        var soFar = state.EmergedFraction is { } up
            ? string.Create(CultureInfo.InvariantCulture, $"{up:P0} of seeds were up at the last count")
            : "none counted yet";
        return Next(facts, TaskKind.EmergenceCheck, due, string.Create(
            CultureInfo.InvariantCulture,
            $"Sown {Day(sown)}; {facts.Crop.Name.ToLowerInvariant()} comes up in about {days} days; {soFar}"));
    }

    internal static DueTask? MoveOffHeat(BatchFacts facts)
    {
        var state = facts.Batch.State;
        if (state.SownOn is not { } sown || state.OffHeatOn is not null)
        {
            return null;
        }

        var share = facts.Crop.MoveOffFraction;
        if (state.EmergedFraction is { } up && up >= share * (facts.ExpectedFraction ?? 1))
        {
            return Once(TaskKind.MoveOffHeat, state.CountedOn!.Value, string.Create(
                CultureInfo.InvariantCulture,
                $"{up:P0} of seeds are up: take {Trays(facts.Trays)} off the heat and under light before they stretch"));
        }

        var planned = sown.PlusDays(facts.Crop.PlannedHeatDays);
        return Once(TaskKind.MoveOffHeat, planned, string.Create(
            CultureInfo.InvariantCulture,
            $"Planned {facts.Crop.PlannedHeatDays} days on heat since {Day(sown)}; leave once {share:P0} of the plants are up"));
    }

    internal static DueTask? Thin(BatchFacts facts)
    {
        var state = facts.Batch.State;
        if (state.FirstUpOn is not { } up
            || state.ThinnedOn is not null
            || facts.Batch.SeedsPerCell < 2
            || facts.Crop.ThinDaysAfterEmergence is not { } days)
        {
            return null;
        }

        return Once(TaskKind.Thin, up.PlusDays(days), string.Create(
            CultureInfo.InvariantCulture,
            $"Up since {Day(up)}; thin to one a cell {days} days later, at the first true leaf; {facts.Batch.Cells} cells"));
    }

    internal static DueTask? HandOver(BatchFacts facts)
    {
        if (facts.Batch.State.SownOn is null)
        {
            return null;
        }

        var due = facts.WantedOn ?? facts.Batch.ReadyOn;
        var reason = facts.WantedOn is null ? "no order names it" : "an order wants them that day";
        return Once(TaskKind.HandOver, due, $"Planned ready {Day(facts.Batch.ReadyOn)}; {reason}");
    }

    private static DueTask Once(TaskKind kind, LocalDate due, string why) => new(kind, 1, due, why);

    private static DueTask Next(BatchFacts facts, TaskKind kind, LocalDate due, string why) =>
        new(kind, facts.NextOccurrence.GetValueOrDefault(kind, 1), due, why);

    private static string Day(LocalDate day) => day.ToString("d MMMM", CultureInfo.InvariantCulture);

    private static string Trays(int trays) =>
        trays == 1 ? "1 tray" : string.Create(CultureInfo.InvariantCulture, $"{trays} trays");

    private static string Seeds(int seeds) =>
        seeds == 1 ? "1 seed" : string.Create(CultureInfo.InvariantCulture, $"{seeds} seeds");
}
