using System.Globalization;
using Nursery.Planning.Changes;

namespace Nursery.Planning.Repairs;

/// <summary>Trays given up: of each batch without a place no more than must be, so that the rest of it finds one.</summary>
internal static class DropWays
{
    private const int MostInParts = 6;
    private const int Named = 4;

    public static Repair? Of(Trials trials)
    {
        var dropped = new List<TraysDropped>();
        foreach (var (batch, index) in trials.Left.OrderByDescending(batch => batch.Trays).ThenBy(batch => batch.Id, StringComparer.Ordinal).Select((batch, index) => (batch, index)))
        {
            // The fewest that must go: with all of them gone it is no longer without a place.
            var (fewest, enough) = (1, batch.Trays);
            while (index < MostInParts && fewest < enough)
            {
                var middle = (fewest + enough) / 2;
                var planned = trials.Least([.. dropped, new TraysDropped(batch.Id, middle)], trials.Plan);
                if (planned is not null && planned.Plan.Unplaced.All(unplaced => unplaced.Id != batch.Id))
                {
                    enough = middle;
                }
                else
                {
                    fewest = middle + 1;
                }
            }

            dropped.Add(new TraysDropped(batch.Id, enough));
        }

        if (trials.Run(dropped) is not { } plan)
        {
            return null;
        }

        var trays = dropped.Sum(one => one.Trays);
        var all = trials.Left.ToDictionary(batch => batch.Id, batch => batch.Trays);
        var which = dropped.Count > Named
            ? string.Create(CultureInfo.InvariantCulture, $"of {dropped.Count} batches")
            : string.Join(" and ", dropped.Select(one => one.Trays == all[one.Batch]
                ? $"all {one.Trays} of {one.Batch}" : $"{one.Trays} of the {all[one.Batch]} of {one.Batch}"));
        return trials.Repair(
            dropped, $"Give up {Trials.Count(trays, "tray", "trays")}, {which}", plan, (long)trays * trials.Prices.UnplacedTray, trays);
    }
}
