using NodaTime;
using Nursery.Agronomy.Forecast;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using EmergenceCount = Nursery.Agronomy.Forecast.EmergenceCount;

namespace Nursery.Application.Forecasts;

/// <summary>What was counted of a batch on a day.</summary>
/// <param name="Day">The site's.</param>
/// <param name="What">Seedlings, cells up or blanks.</param>
/// <param name="Value">How many.</param>
/// <param name="Cells">In so many cells.</param>
/// <param name="SeedsPerCell">1 after thinning, when a count is of the stand.</param>
/// <param name="OfStand">Counted after thinning.</param>
public sealed record CountedDay(LocalDate Day, CountWhat What, int Value, int Cells, int SeedsPerCell, bool OfStand)
{
    private Count AsCount => new(What, Value, Cells, false, SeedsPerCell);

    /// <summary>Cells with a plant among those counted.</summary>
    public int CellsUp => CountedEmergence.CellsUp(AsCount);

    /// <summary>Seedlings ÷ seeds of the cells counted, 0–1.</summary>
    public decimal Fraction => Math.Min(1, CountedEmergence.Seedlings(AsCount) / (Cells * SeedsPerCell));

    /// <summary>One a day. Counts of one day in different trays are put together; else the widest speaks, and of equally wide ones the
    /// highest, as in <see cref="EmergenceCounts"/>. A look that found nothing is a count of no cell up.</summary>
    internal static IReadOnlyList<CountedDay> Of(IEnumerable<LedgerEntry> effective, Batch batch)
    {
        if (batch.State.SownOn is not { } sown)
        {
            return [];
        }

        return
        [
            .. effective.Where(entry => entry.Day >= sown)
                .Select(entry => (entry.Day, Count: entry.Value switch
                {
                    Count count => count,
                    NotYet { Task: TaskKind.EmergenceCheck, SaysNotUp: true } => new Count(CountWhat.CellsUp, 0, batch.Cells, false, batch.SeedsPerCell),
                    _ => null,
                }))
                .Where(entry => entry.Count is not null)
                .GroupBy(entry => entry.Day).OrderBy(day => day.Key)
                .Select(day => OfDay(day.Key, [.. day.Select(entry => entry.Count!)], batch)),
        ];
    }

    internal EmergenceCount Emergence(LocalDate sown) => new(
        Math.Min(366, Period.DaysBetween(sown, Day)),
        What switch
        {
            _ when OfStand => CountKind.CellsUp,
            CountWhat.Seedlings => CountKind.Seedlings,
            CountWhat.CellsUp => CountKind.CellsUp,
            CountWhat.Blanks => CountKind.Blanks,
            _ => throw new InvalidOperationException($"A count of {What} has no meaning for a forecast"),
        },
        OfStand ? CellsUp : Value,
        Cells);

    private static CountedDay OfDay(LocalDate day, IReadOnlyList<Count> counts, Batch batch)
    {
        var first = counts[0];
        var trays = counts.SelectMany(count => count.Trays ?? []).ToList();
        var apart = counts.All(count => count.Trays is not null && count.What == first.What) && trays.Distinct().Count() == trays.Count;
        var (value, cells, what) = apart
            ? (counts.Sum(count => count.Value), counts.Sum(count => count.Cells), first.What)
            : counts.OrderByDescending(count => count.Cells).ThenByDescending(CountedEmergence.CellsUp).Select(count => (count.Value, count.Cells, count.What)).First();
        var ofStand = batch.State.ThinnedOn is { } thinned && day >= thinned;
        var (seeds, looked) = (ofStand ? 1 : batch.SeedsPerCell, Math.Clamp(cells, 1, batch.Cells));
        return new CountedDay(day, what, Math.Clamp(value, 0, what == CountWhat.Seedlings ? looked * seeds : looked), looked, seeds, ofStand);
    }
}
