namespace Nursery.Planning.Search;

/// <summary>A first plan: batches one after another, each where it costs least then.</summary>
internal static class Constructive
{
    private static readonly double[] Margins = [0.9, 1, 1.05, 1.1, 1.2];

    /// <summary>In order of sowing, kept to forecasts of the setpoints that are tight or ample, and to none; the best of these plans.</summary>
    public static Season Best(SeasonModel model, SplitMix random)
    {
        var order = Enumerable.Range(0, model.Batches.Count).OrderBy(FirstSow).ThenBy(batch => batch).ToList();
        return Margins.Select(margin => InOrder(model, order, SetpointForecast.Of(model, margin), random))
            .Append(InOrder(model, order, [], random)).MinBy(season => season.Cost)!;

        int FirstSow(int batch) => model.Modes.Start[batch] == model.Modes.Start[batch + 1] ? 0 : model.Modes.Sow[model.Modes.Start[batch]];
    }

    private static Season InOrder(
        SeasonModel model, List<int> order, List<(int Zone, int Level, int Week)> forecast, SplitMix random)
    {
        var season = new Season(model);
        foreach (var (zone, level, week) in forecast)
        {
            season.Zones.Lock(zone, level, week, week);
        }

        season.Zones.Settle();
        var inserter = new Inserter(season, random);
        foreach (var batch in order)
        {
            inserter.Insert(batch);
        }

        foreach (var (zone, _, week) in forecast)
        {
            season.Zones.Unlock(zone, week, week);
        }

        season.Zones.Settle();
        foreach (var batch in order.Where(batch => !season.IsPlaced(batch)))
        {
            inserter.Insert(batch);
        }

        season.Zones.Settle();
        return season;
    }
}
