namespace Nursery.Planning.Search;

/// <summary>A first plan: batches one after another, each where it costs least then.</summary>
internal static class Constructive
{
    /// <summary>Three orders, the best plan of them.</summary>
    public static Season Best(SeasonModel model, SplitMix random)
    {
        var trayDays = RuinAndRecreate.TrayDays(model);
        var batches = Enumerable.Range(0, model.Batches.Count).ToList();
        var orders = new[]
        {
            batches.OrderByDescending(batch => trayDays[batch]).ThenBy(batch => batch),
            batches.OrderBy(batch => model.Due[batch]).ThenBy(batch => batch),
            batches.OrderByDescending(batch => model.Trays[batch]).ThenBy(batch => batch),
        };
        return orders.Select(order => InOrder(model, order, random)).MinBy(season => season.Cost)!;
    }

    private static Season InOrder(SeasonModel model, IEnumerable<int> order, SplitMix random)
    {
        var season = new Season(model);
        var inserter = new Inserter(season, random);
        foreach (var batch in order)
        {
            inserter.Insert(batch);
        }

        season.Zones.Settle();
        return season;
    }
}
