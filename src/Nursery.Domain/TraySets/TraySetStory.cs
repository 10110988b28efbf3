using Nursery.Domain.Ledger;

namespace Nursery.Domain.TraySets;

/// <summary>The only way a tray set's standing comes to be.</summary>
public static class TraySetStory
{
    /// <summary>Where each tray stands after all entries, in any order of arrival: the last word about a tray wins.
    /// Neighboring trays of one entry stay one row.</summary>
    /// <param name="traySet">The tray set.</param>
    /// <param name="entries">All ledger entries about it.</param>
    public static IReadOnlyList<Standing> Fold(TraySet traySet, IReadOnlyCollection<LedgerEntry> entries)
    {
        var lastWord = new (LedgerEntry Entry, Placement Placement)?[traySet.Trays + 1];
        var effective = LedgerOrder.Effective(entries);
        foreach (var entry in effective)
        {
            if (entry.Value is not Placement placement)
            {
                continue;
            }

            for (var tray = placement.Trays.First; tray <= Math.Min(placement.Trays.Last, traySet.Trays); tray++)
            {
                lastWord[tray] = (entry, placement);
            }
        }

        foreach (var tray in Discarded(traySet, effective))
        {
            lastWord[tray] = null;
        }

        return [.. Runs(traySet, lastWord)];
    }

    /// <summary>Numbers of the trays that were thrown away: they stand nowhere, whatever is said of the set as a whole.</summary>
    public static IReadOnlyList<int> Discarded(TraySet traySet, IReadOnlyCollection<LedgerEntry> effective) =>
    [
        .. effective.Select(entry => entry.Value).OfType<TraysDiscarded>()
            .SelectMany(gone => Enumerable.Range(gone.Trays.First, gone.Trays.Count))
            .Where(tray => tray <= traySet.Trays).Distinct().Order(),
    ];

    private static IEnumerable<Standing> Runs(TraySet traySet, (LedgerEntry Entry, Placement Placement)?[] lastWord)
    {
        for (var tray = 1; tray <= traySet.Trays; tray++)
        {
            if (lastWord[tray] is not { } word)
            {
                continue;
            }

            var first = tray;
            while (tray < traySet.Trays && ReferenceEquals(lastWord[tray + 1]?.Entry, word.Entry))
            {
                tray++;
            }

            var run = new SpaceRun(first, tray - first + 1);
            yield return new Standing
            {
                Id = new Id<Standing>(DerivedId.From(word.Entry.Id.Value, "standing", first)),
                SiteId = traySet.SiteId,
                TraySetId = traySet.Id,
                Trays = run,
                BenchId = word.Placement.Bench,
                Spaces = SpacesOf(traySet, word.Placement, run),
                Since = word.Entry.Day,
                EntryId = word.Entry.Id,
            };
        }
    }

    /// <summary>Trays that were put down together fill their spaces in order, so a part of them has a known part of the spaces.</summary>
    private static SpaceRun? SpacesOf(TraySet traySet, Placement placement, SpaceRun run)
    {
        if (placement.FirstSpace is not { } firstSpace)
        {
            return null;
        }

        var before = run.First - placement.Trays.First;
        var start = (int)Math.Floor(before * traySet.Footprint);
        var end = traySet.SpacesFor(before + run.Count);
        return new SpaceRun(firstSpace + start, end - start);
    }
}
