using Nursery.Planning.Search;

namespace Nursery.Bounds;

/// <summary>Batches that may do the same on the same days, counted as trays: the relaxation need not tell them apart.</summary>
/// <param name="Like">One of them, whose modes stand for all.</param>
/// <param name="Trays">Of all of them.</param>
/// <param name="Count">How many batches.</param>
/// <param name="Before">Fewest spaces a tray takes before spacing.</param>
/// <param name="After">Fewest after.</param>
internal sealed record BatchGroup(int Like, int Trays, int Count, double Before, double After)
{
    public static List<BatchGroup> Of(SeasonModel model) =>
    [
        .. model.Batches.Select((batch, index) => (batch, index))
            .GroupBy(pair => pair.batch with { Id = "", Trays = 0, Spaces = null, SpacesAfter = null })
            .Select(group => new BatchGroup(
                group.First().index,
                group.Sum(pair => pair.batch.Trays),
                group.Count(),
                group.Min(pair => (double)model.Before[pair.index] / model.Trays[pair.index]),
                group.Min(pair => (double)model.After[pair.index] / model.Trays[pair.index]))),
    ];
}
