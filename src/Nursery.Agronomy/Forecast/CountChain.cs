namespace Nursery.Agronomy.Forecast;

/// <summary>Counts as a likelihood reads them: how many of those not up at the count before came up since. Counts of the same cells are a
/// chain; where other cells were looked at a new one begins. A count that falls (seedlings died, or someone miscounted) takes nothing
/// back of what had emerged.</summary>
internal sealed class CountChain
{
    private CountChain(IReadOnlyList<Link> links, CountedNow? now) => (Links, Now) = (links, now);

    public IReadOnlyList<Link> Links { get; }

    /// <summary>The last count as it stands; null where nothing was counted.</summary>
    public CountedNow? Now { get; }

    public static CountChain Of(ForecastQuestion question)
    {
        var links = new List<Link>();
        CountedNow? now = null;
        foreach (var count in question.Counts.Where(count => count.Day <= question.AsOfDay).OrderBy(count => count.Day))
        {
            var (byCell, up) = count.What switch
            {
                CountKind.Seedlings => (question.SeedsPerCell == 1, count.Value),
                CountKind.CellsUp => (true, count.Value),
                _ => (true, count.Cells - count.Value),
            };
            var units = byCell ? count.Cells : count.Cells * question.SeedsPerCell;
            var before = now is { } last && last.ByCell == byCell && last.Cells == count.Cells ? now : null;
            up = Math.Max(up, before?.Up ?? 0);
            links.Add(new Link(before?.Day, count.Day, byCell, up - (before?.Up ?? 0), units - (before?.Up ?? 0)));
            now = new CountedNow(count.Day, byCell, count.Cells, units, up);
        }

        return new CountChain(links, now);
    }

    /// <param name="From">Day of the count before, null for none.</param>
    /// <param name="Day">Day of this count.</param>
    /// <param name="ByCell">Units are cells, else seeds.</param>
    /// <param name="New">Units up since.</param>
    /// <param name="Of">Units that were not up.</param>
    internal sealed record Link(double? From, double Day, bool ByCell, int New, int Of);

    internal sealed record CountedNow(double Day, bool ByCell, int Cells, int Units, int Up);
}
