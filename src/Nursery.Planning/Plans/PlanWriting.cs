using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;
using Nursery.Planning.Search;

namespace Nursery.Planning.Plans;

/// <summary>A season of the search as a plan to read.</summary>
internal static class PlanWriting
{
    public static Plan Of(Season season, IReadOnlyList<Unplaced> setAside)
    {
        var model = season.Model;
        var problem = model.Problem;
        var placed = new List<PlannedBatch>();
        var unplaced = new List<Unplaced>(setAside);
        for (var batch = 0; batch < model.Batches.Count; batch++)
        {
            if (season.IsPlaced(batch))
            {
                placed.Add(Batch(season, batch));
            }
            else
            {
                unplaced.Add(new Unplaced(
                    model.Batches[batch].Id, model.Trays[batch], WhyNot.NoSpaceFound,
                    "I found no space for it that was worth its price; that is no proof that there is none."));
            }
        }

        var plan = new Plan(placed, [.. problem.Zones.Select((zone, index) => Path(season, zone, index))], unplaced, Score.None);
        return plan with { Score = new Scorer(problem).Of(plan) };
    }

    private static PlannedBatch Batch(Season season, int batch)
    {
        var model = season.Model;
        var (place, modes) = (season.Places[batch], model.Modes);
        int emerge = modes.Emerge[place.Mode], ready = modes.Ready[place.Mode];
        var harden = ready - model.HardeningDays;
        var parts = place.Parts ?? new Parts(
            [new Run(place.Zone, place.ZoneFirst, (short)model.Before[batch], 0, 0)],
            [new Run(place.Bench, place.BenchFirst, (short)model.Before[batch], place.BenchFirstAfter, (short)model.After[batch])]);
        return new PlannedBatch(
            model.Batches[batch].Id,
            Date(modes.Sow[place.Mode]),
            Date(emerge),
            Date(emerge + ((harden - emerge) / 2)),
            Date(harden),
            Date(ready),
            model.LevelF[modes.Level[place.Mode]],
            modes.Band[place.Mode],
            [.. parts.Heat.Select(run => new HeatStay(model.AreaId[run.Area], run.First + 1, run.Count))],
            [.. parts.Benches.Select(run => new BenchStay(model.AreaId[run.Area], run.First + 1, run.Count, run.FirstAfter + 1, run.CountAfter))]);

        DateOnly Date(int day) => model.Problem.DateOf(day);
    }

    private static ZonePath Path(Season season, HeatZone zone, int index)
    {
        var (model, levels) = (season.Model, season.Zones.Path(index));
        var spans = new List<SetpointSpan>();
        for (var week = 0; week < levels.Length;)
        {
            var end = week + 1;
            while (end < levels.Length && levels[end] == levels[week])
            {
                end++;
            }

            spans.Add(new SetpointSpan(
                model.Problem.DateOf(7 * week), model.Problem.DateOf(Math.Min(7 * end, model.Days)), levels[week] == 0 ? null : model.LevelF[levels[week]]));
            week = end;
        }

        return new ZonePath(zone.Id, spans);
    }
}
