using Nursery.Planning.Changes;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Planning.Repairs;

/// <summary>Batches without a place handed over later or sown earlier than allowed: those that need it, by the days they need.</summary>
internal static class WindowWays
{
    private const int Days = 7;
    private const int Named = 4;

    public static IEnumerable<Repair> Of(Trials trials)
    {
        if (Try(trials, batch => new HandOverLate(batch.Id, Days), Late, (batch, days) => new HandOverLate(batch.Id, days), WordsLate) is { } later)
        {
            yield return later;
        }

        if (Try(trials, batch => new SowEarlier(batch.Id, Days), Early, (batch, days) => new SowEarlier(batch.Id, days), WordsEarly) is { } earlier)
        {
            yield return earlier;
        }
    }

    private static int Late(Batch batch, PlannedBatch placed) => placed.ReadyOn.DayNumber - batch.LastReady.DayNumber;

    private static int Early(Batch batch, PlannedBatch placed) => batch.FirstReady.DayNumber - placed.ReadyOn.DayNumber;

    private static Repair? Try(
        Trials trials, Func<Batch, SeasonChange> most, Func<Batch, PlannedBatch, int> days, Func<Batch, int, SeasonChange> needed,
        Func<List<(Batch Batch, PlannedBatch Placed, int Days)>, string> words)
    {
        if (trials.Run([.. trials.Left.Select(most)]) is not { } wide)
        {
            return null;
        }

        var placed = wide.Plan.Batches.ToDictionary(one => one.Id);
        var used = trials.Left.Where(batch => placed.ContainsKey(batch.Id)).Select(batch => (batch, placed[batch.Id], Days: days(batch, placed[batch.Id])))
            .Where(one => one.Days > 0).ToList();
        SeasonChange[] changes = [.. used.Select(one => needed(one.batch, one.Days))];
        return used.Count > 0 && trials.Least(changes, wide.Plan) is { } planned ? trials.Repair(changes, words(used), planned) : null;
    }

    private static string WordsLate(List<(Batch Batch, PlannedBatch Placed, int Days)> used) => used.Count <= Named
        ? "Hand over " + string.Join(" and ", used.Select(one => $"{one.Batch.Id} {Trials.Count(one.Days, "day", "days")} later")) + " than allowed now"
        : $"Hand over {used.Count} batches up to {Trials.Count(used.Max(one => one.Days), "day", "days")} later than allowed now";

    private static string WordsEarly(List<(Batch Batch, PlannedBatch Placed, int Days)> used) => used.Count <= Named
        ? "Sow " + string.Join(" and ", used.Select(one => $"{one.Batch.Id} on {Trials.Day(one.Placed.SowOn)}, ready {Trials.Count(one.Days, "day", "days")} sooner")) + " than allowed now"
        : $"Sow {used.Count} batches earlier, to be ready up to {Trials.Count(used.Max(one => one.Days), "day", "days")} sooner than allowed now";
}
