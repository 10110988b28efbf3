namespace Nursery.Past;

/// <summary>Who holds which spaces when, while the season is planned.</summary>
internal sealed class BenchBook(IEnumerable<PastHeld> held)
{
    private readonly Dictionary<string, List<PastHeld>> _held =
        held.GroupBy(row => row.Bench).ToDictionary(group => group.Key, group => group.ToList());

    /// <summary>The first free run within a part of a bench; null when there is none.</summary>
    public PastHeld? Find(string bench, int first, int count, int spaces, int from, int to)
    {
        var inTheWay = _held.TryGetValue(bench, out var rows)
            ? rows.Where(row => row.From < to && from < row.To).OrderBy(row => row.FirstSpace).ToList()
            : [];
        var at = first;
        foreach (var row in inTheWay)
        {
            if (row.FirstSpace - at >= spaces)
            {
                break;
            }

            at = Math.Max(at, row.FirstSpace + row.Spaces);
        }

        return at + spaces <= first + count ? new PastHeld(bench, at, spaces, from, to) : null;
    }

    public void Take(PastHeld place)
    {
        if (!_held.TryGetValue(place.Bench, out var rows))
        {
            _held[place.Bench] = rows = [];
        }

        rows.Add(place);
    }
}
