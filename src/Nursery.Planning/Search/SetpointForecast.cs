namespace Nursery.Planning.Search;

/// <summary>Which zones will be on which level when, were every batch timed as it likes best: enough of them for a week's trays, and
/// a zone stays on its level as long as that many are wanted. A first plan kept to it has its batches gathered; without it each
/// takes the zone that happens to be cheapest, and in a large nursery the zones end up on levels nobody else wants.</summary>
internal static class SetpointForecast
{
    /// <param name="margin">Spaces for a tray on heat, of the mean of a week.</param>
    /// <returns>A zone, a level that is not off, and a week it is on it.</returns>
    public static List<(int Zone, int Level, int Week)> Of(SeasonModel model, double margin)
    {
        var wanted = Wanted(model);
        var found = new List<(int Zone, int Level, int Week)>();
        var level = new int[model.Zones];
        for (var week = 0; week < model.Weeks; week++)
        {
            var missing = new double[model.Levels];
            for (var some = 1; some < model.Levels; some++)
            {
                missing[some] = margin * wanted[(week * model.Levels) + some];
            }

            for (var zone = 0; zone < model.Zones; zone++)
            {
                level[zone] = level[zone] > 0 && missing[level[zone]] > 0 && May(zone, week, level[zone]) ? level[zone] : 0;
                missing[level[zone]] -= model.Spaces[zone];
            }

            // The level that misses most chooses first.
            for (var zone = 0; zone < model.Zones; zone++)
            {
                if (level[zone] != 0)
                {
                    continue;
                }

                for (var some = 1; some < model.Levels; some++)
                {
                    level[zone] = missing[some] > 0 && May(zone, week, some) && (level[zone] == 0 || missing[some] > missing[level[zone]])
                        ? some : level[zone];
                }

                if (level[zone] != 0)
                {
                    missing[level[zone]] -= model.Spaces[zone];
                }
            }

            for (var zone = 0; zone < model.Zones; zone++)
            {
                if (level[zone] != 0)
                {
                    found.Add((zone, level[zone], week));
                }
            }
        }

        return found;

        bool May(int zone, int week, int some) => (model.Allowed[(zone * model.Weeks) + week] >> some & 1) != 0;
    }

    /// <summary>Spaces on the mean of a week's days, by week × levels + level.</summary>
    private static double[] Wanted(SeasonModel model)
    {
        var modes = model.Modes;
        var wanted = new double[model.Weeks * model.Levels];
        for (var batch = 0; batch < model.Batches.Count; batch++)
        {
            var mode = modes.Start[batch];
            var any = mode < modes.Start[batch + 1];
            for (int day = any ? modes.Sow[mode] : 0; any && day < modes.Emerge[mode]; day++)
            {
                wanted[(day / 7 * model.Levels) + modes.Level[mode]] += model.Before[batch] / 7.0;
            }
        }

        return wanted;
    }
}
