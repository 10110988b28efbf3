namespace Nursery.Planning.Search;

/// <summary>Which zones will be on which level when, were every batch timed as it likes best: enough of them for the fullest day of a
/// week, and a zone stays on its level as long as that many are wanted. A first plan kept to it has its batches gathered; without it
/// each takes the zone that happens to be cheapest, and in a large nursery the zones end up on levels nobody else wants.</summary>
internal static class SetpointForecast
{
    /// <summary>Batches do not fill a zone to the last space.</summary>
    private const double Slack = 1.06;

    /// <summary>A zone, a level that is not off, and a week it is on it.</summary>
    public static List<(int Zone, int Level, int Week)> Of(SeasonModel model)
    {
        var wanted = Wanted(model);
        var found = new List<(int Zone, int Level, int Week)>();
        var level = new int[model.Zones];
        for (var week = 0; week < model.Weeks; week++)
        {
            var missing = new double[model.Levels];
            for (var some = 1; some < model.Levels; some++)
            {
                missing[some] = wanted[(week * model.Levels) + some];
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

    /// <summary>Spaces on the fullest day, by week × levels + level.</summary>
    private static double[] Wanted(SeasonModel model)
    {
        var modes = model.Modes;
        var load = new int[model.Days, model.Levels];
        for (var batch = 0; batch < model.Batches.Count; batch++)
        {
            var mode = modes.Start[batch];
            if (mode == modes.Start[batch + 1])
            {
                continue;
            }

            for (int day = modes.Sow[mode]; day < modes.Emerge[mode]; day++)
            {
                load[day, modes.Level[mode]] += model.Before[batch];
            }
        }

        var wanted = new double[model.Weeks * model.Levels];
        for (var day = 0; day < model.Days; day++)
        {
            for (var level = 0; level < model.Levels; level++)
            {
                ref var most = ref wanted[((day / 7) * model.Levels) + level];
                most = Math.Max(most, Slack * load[day, level]);
            }
        }

        return wanted;
    }
}
