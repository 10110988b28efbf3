namespace Nursery.Planning.Search;

/// <summary>A first plan: batches one after another, each where it costs least then.</summary>
internal static class Constructive
{
    /// <summary>In order of sowing, with and without the setpoints forecast, and the largest first; the best of these plans.</summary>
    public static Season Best(SeasonModel model, SplitMix random)
    {
        var trayDays = RuinAndRecreate.TrayDays(model);
        var batches = Enumerable.Range(0, model.Batches.Count).ToList();
        var bySow = batches.OrderBy(FirstSow).ThenBy(batch => batch).ToList();
        var bySize = batches.OrderByDescending(batch => trayDays[batch]).ThenBy(batch => batch).ToList();
        var forecast = SetpointForecast.Of(model);
        return new[] { InOrder(model, bySow, forecast, random), InOrder(model, bySow, [], random), InOrder(model, bySize, forecast, random) }
            .MinBy(season => season.Cost)!;

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
