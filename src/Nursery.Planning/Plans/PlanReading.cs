using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Planning.Plans;

/// <summary>Puts batches of a finished plan back into a season of the search.</summary>
internal static class PlanReading
{
    /// <summary>A season with every batch where a plan has it if it can stand there; the others are placed anew, the first due first.</summary>
    public static Season PutBack(Problem problem, IEnumerable<PlannedBatch> plan, SplitMix random)
    {
        var placed = plan.ToDictionary(batch => batch.Id);
        var model = new SeasonModel(problem, problem.Batches);
        var season = new Season(model);
        season.Zones.Settle();
        for (var batch = 0; batch < model.Batches.Count; batch++)
        {
            if (placed.TryGetValue(model.Batches[batch].Id, out var was))
            {
                TryPut(season, batch, was);
            }
        }

        season.Zones.Settle();
        var inserter = new Inserter(season, random);
        foreach (var batch in season.Unplaced.ToArray().OrderBy(batch => model.Due[batch]).ThenBy(batch => batch))
        {
            inserter.Insert(batch);
        }

        season.Zones.Settle();
        return season;
    }

    /// <returns>False, and nothing is put, when its time, setpoint or spaces are not to be had (any more), or its runs are not all of it.</returns>
    private static bool TryPut(Season season, int batch, PlannedBatch placed)
    {
        var (model, modes) = (season.Model, season.Model.Modes);
        var mode = Mode(model, batch, placed);
        if (mode < 0 || placed.Heat.Count == 0 || placed.Benches.Count == 0)
        {
            return false;
        }

        Run[] heat = [.. placed.Heat.Select(stay => new Run(Area(model, stay.Zone), (short)(stay.FirstSpace - 1), (short)stay.Spaces, 0, 0))];
        Run[] benches = [.. placed.Benches.Select(stay => new Run(
            Area(model, stay.Bench), (short)(stay.FirstSpace - 1), (short)stay.Spaces, (short)(stay.FirstSpaceAfter - 1), (short)stay.SpacesAfter))];
        if (heat.Sum(run => run.Count) != model.Before[batch] || benches.Sum(run => run.Count) != model.Before[batch]
            || benches.Sum(run => run.CountAfter) != model.After[batch])
        {
            return false;
        }

        int sow = modes.Sow[mode], emerge = modes.Emerge[mode], ready = modes.Ready[mode];
        var harden = ready - model.HardeningDays;
        var spacing = emerge + ((harden - emerge) / 2);
        var open = heat.All(run => run.Area >= 0 && run.Area < model.Zones && Open(season, run.Area, modes.Level[mode], sow, emerge)
                && season.Bits.IsFree(run.Area, sow, emerge, run.First, run.Count))
            && benches.All(run => run.Area >= model.Zones && season.Bits.IsFree(run.Area, emerge, spacing, run.First, run.Count)
                && season.Bits.IsFree(run.Area, spacing, harden, run.FirstAfter, run.CountAfter))
            && season.Loads.AtMost(season.Hardening, harden, ready, model.HardeningSpaces - model.After[batch]);
        if (!open)
        {
            return false;
        }

        var whole = heat.Length == 1 && benches.Length == 1;
        season.Put(batch, new Place
        {
            Mode = mode,
            Extra = ((heat.Length + benches.Length - 2) * model.Prices.Split)
                + (model.NowZone[batch] >= 0 && model.NowZone[batch] != heat[0].Area ? model.Prices.MovedPlace : 0)
                + (model.NowBench[batch] >= 0 && model.NowBench[batch] != benches[0].Area ? model.Prices.MovedPlace : 0),
            Zone = heat[0].Area,
            ZoneFirst = heat[0].First,
            Bench = benches[0].Area,
            BenchFirst = benches[0].First,
            BenchFirstAfter = benches[0].FirstAfter,
            Parts = whole ? null : new Parts(heat, benches),
        });
        return true;
    }

    private static int Mode(SeasonModel model, int batch, PlannedBatch placed)
    {
        var modes = model.Modes;
        for (var mode = modes.Start[batch]; mode < modes.Start[batch + 1]; mode++)
        {
            if (modes.Sow[mode] == model.Problem.DayOf(placed.SowOn) && modes.Ready[mode] == model.Problem.DayOf(placed.ReadyOn)
                && modes.Band[mode] == placed.Band && model.LevelF[modes.Level[mode]].Equals(placed.SetpointF))
            {
                return mode;
            }
        }

        return -1;
    }

    private static bool Open(Season season, int zone, int level, int sow, int emerge)
    {
        for (var week = sow / 7; week <= (emerge - 1) / 7; week++)
        {
            if (!season.Zones.IsOpen(zone, week, level))
            {
                return false;
            }
        }

        return true;
    }

    private static short Area(SeasonModel model, string id) => (short)Array.IndexOf(model.AreaId, id);
}
