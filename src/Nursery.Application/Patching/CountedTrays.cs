using Nursery.Agronomy.Patching;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;

namespace Nursery.Application.Patching;

/// <summary>What stands in each tray of a batch by its counts: the last one that looked at a tray speaks for it. Where trays were counted
/// together, or in a sample, what was found is taken as even; where only cells or only seedlings were counted, the other follows from the
/// seeds a cell (docs/agronomy/short-stands.md).</summary>
/// <param name="Trays">Those not thrown away; none when nothing was counted.</param>
/// <param name="IsEven">Some trays were not counted by themselves.</param>
/// <param name="IsGuessed">Seedlings beside others follow from the seeds a cell.</param>
internal sealed record CountedTrays(IReadOnlyList<TrayStand> Trays, bool IsEven, bool IsGuessed)
{
    /// <param name="effective">Counts that stand, in order.</param>
    /// <param name="batch">Theirs.</param>
    /// <param name="trays">Numbers of the trays there are.</param>
    /// <param name="cellsPerTray">Of each.</param>
    public static CountedTrays Of(IEnumerable<LedgerEntry> effective, Batch batch, IReadOnlyList<int> trays, int cellsPerTray)
    {
        var known = new Dictionary<int, Known>();
        foreach (var entry in effective.Where(entry => entry.Value is Count && entry.Day >= batch.State.SownOn))
        {
            var count = (Count)entry.Value;
            var thinned = batch.State.ThinnedOn is { } day && entry.Day >= day;
            IReadOnlyList<int> looked = count.Trays is { Count: > 0 } named && !count.Sample ? named : trays;
            var at = looked.Where(trays.Contains).ToList();
            for (var index = 0; index < at.Count; index++)
            {
                var said = new Known(
                    entry.Day, count.What != CountWhat.Seedlings ? Part(CountedEmergence.CellsUp(count), index) : null,
                    count.What == CountWhat.Seedlings ? Part(count.Value, index) : null, looked.Count == 1 && count.Cells >= cellsPerTray);
                known[at[index]] = known.TryGetValue(at[index], out var before) && before.Day == entry.Day && !thinned
                    ? said with { Plants = said.Plants ?? before.Plants, Seedlings = said.Seedlings ?? before.Seedlings }
                    : said;
            }

            // All of it goes somewhere: of 7 in three trays 3, 2 and 2.
            int Part(int value, int index)
            {
                var whole = Math.Min((int)Math.Round((double)value * cellsPerTray * at.Count / count.Cells), cellsPerTray * batch.SeedsPerCell * at.Count);
                return (whole / at.Count) + (index < whole % at.Count ? 1 : 0);
            }
        }

        var spares = batch.State.ThinnedOn is null && batch.SeedsPerCell > 1;
        return new CountedTrays(
            [.. known.OrderBy(tray => tray.Key).Select(tray => StandOf(tray.Key, tray.Value, batch.SeedsPerCell, cellsPerTray, spares))],
            known.Values.Any(tray => !tray.Alone) && trays.Count > 1,
            spares && known.Values.Any(tray => tray.Plants is null || tray.Seedlings is null));
    }

    private static TrayStand StandOf(int tray, Known known, int seedsPerCell, int cells, bool spares)
    {
        var plants = Math.Min(cells, known.Plants ?? (spares
            ? (int)Math.Round(cells * (1 - Math.Pow(1 - Math.Min(1, (double)known.Seedlings!.Value / (cells * seedsPerCell)), seedsPerCell)))
            : known.Seedlings!.Value));
        var seedlings = known.Seedlings
            ?? (int)Math.Floor(CountedEmergence.Seedlings(new Count(CountWhat.CellsUp, plants, cells, false, seedsPerCell)));
        return new TrayStand(tray, plants, spares ? Math.Max(0, seedlings - plants) : 0);
    }

    private readonly record struct Known(NodaTime.LocalDate Day, int? Plants, int? Seedlings, bool Alone);
}
