using Nursery.Domain.Ledger;

namespace Nursery.Domain.Batches;

/// <summary>Emergence from what people count.</summary>
public static class CountedEmergence
{
    /// <summary>Cells with at least one plant among the counted ones.</summary>
    public static int CellsUp(Count count) => count.What switch
    {
        CountWhat.Seedlings => Math.Min(count.Value, count.Cells),
        CountWhat.CellsUp => count.Value,
        CountWhat.Blanks => count.Cells - count.Value,
        _ => throw new ArgumentOutOfRangeException(nameof(count), count.What, "a kind of count without a rule"),
    };

    /// <summary>Seedlings in the counted cells. From cells up c of n with k seeds each:
    /// n·k·F with F = 1 − (1 − c/n)^(1/k), seeds of a cell taken as independent (the probability that at least one
    /// of k comes up, solved for one; elementary, no source needed).</summary>
    public static decimal Seedlings(Count count)
    {
        if (count.What == CountWhat.Seedlings)
        {
            return count.Value;
        }

        var cellsUpShare = (double)CellsUp(count) / count.Cells;
        var fraction = 1 - Math.Pow(1 - cellsUpShare, 1.0 / count.SeedsPerCell);
        return Math.Round((decimal)(fraction * count.Cells * count.SeedsPerCell), 3);
    }

    /// <summary>Whether a count tells more of emergence than what is known: a wider count wins; of equally wide ones the
    /// highest, for seedlings may die but none unsprouts.</summary>
    internal static bool SaysMore(Count count, BatchState than)
    {
        var seeds = count.Cells * count.SeedsPerCell;
        return than.CountedSeeds is not { } known
            || seeds > known
            || (seeds == known && Seedlings(count) > than.CountedUp);
    }
}
