using Nursery.Planning;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>Spaces taken of one kind of place.</summary>
/// <param name="Kind">Heat, Warm, Cool or Hardening.</param>
/// <param name="Capacity">Tray spaces there are.</param>
/// <param name="Weeks">On the fullest day of each week of the season, trays that stand already counted.</param>
/// <param name="Fullest">The first of the days on which most are taken.</param>
/// <param name="Places">What is taken on that day, zone by zone or bench by bench; hardening is one pool.</param>
public sealed record PlaceLoad(PlaceKind Kind, int Capacity, IReadOnlyList<int> Weeks, DateOnly Fullest, IReadOnlyList<PlaceTaken> Places);

/// <summary>Spaces taken in one place on a day.</summary>
/// <param name="Where">Code of a zone or bench; null for the pool of hardening.</param>
/// <param name="Standing">By trays that stand there already or are not the plan's to move.</param>
/// <param name="Planned">By batches of the plan.</param>
/// <param name="Spaces">There are.</param>
public sealed record PlaceTaken(string? Where, int Standing, int Planned, int Spaces);

/// <summary>How full heat, warm and cool benches and hardening are, week by week.</summary>
internal sealed class SeasonLoads
{
    private static readonly BenchUse[] Kinds = [BenchUse.Heat, BenchUse.Warm, BenchUse.Cool, BenchUse.Hardening];
    private readonly Problem _problem;
    private readonly Dictionary<string, (BenchUse Use, int Spaces)> _places;

    /// <summary>By place, spaces on every day: what stands already, what the plan adds.</summary>
    private readonly Dictionary<string, (int[] Standing, int[] Planned)> _days;

    private SeasonLoads(Problem problem, Plan plan)
    {
        _problem = problem;
        _places = problem.Zones.Select(zone => (zone.Id, (BenchUse.Heat, zone.Spaces)))
            .Concat(problem.Benches.Where(bench => bench.Use != BenchUse.Heat).Select(bench => (bench.Id, (bench.Use, bench.Spaces))))
            .Append((FrozenWhere.Hardening, (BenchUse.Hardening, problem.HardeningSpaces)))
            .DistinctBy(place => place.Item1).ToDictionary(place => place.Item1, place => place.Item2);
        _days = _places.Keys.ToDictionary(place => place, _ => (new int[problem.Days], new int[problem.Days]));
        foreach (var stay in problem.Frozen ?? [])
        {
            Add(stay.Where, standing: true, stay.From, stay.To, stay.Spaces);
        }

        foreach (var batch in plan.Batches)
        {
            foreach (var stay in batch.Heat)
            {
                Add(stay.Zone, standing: false, batch.SowOn, batch.MoveOffOn, stay.Spaces);
            }

            foreach (var stay in batch.Benches)
            {
                Add(stay.Bench, standing: false, batch.MoveOffOn, batch.SpaceOn, stay.Spaces);
                Add(stay.Bench, standing: false, batch.SpaceOn, batch.HardenOn, stay.SpacesAfter);
                Add(FrozenWhere.Hardening, standing: false, batch.HardenOn, batch.ReadyOn, stay.SpacesAfter);
            }
        }
    }

    public static IReadOnlyList<PlaceLoad> Of(Problem problem, Plan plan)
    {
        var loads = new SeasonLoads(problem, plan);
        return [.. Kinds.Select(loads.Of)];
    }

    private PlaceLoad Of(BenchUse kind)
    {
        var places = _places.Where(place => place.Value.Use == kind).Select(place => place.Key).ToList();
        var days = Enumerable.Range(0, _problem.Days).Select(day => places.Sum(place => _days[place].Standing[day] + _days[place].Planned[day])).ToList();
        var fullest = days.IndexOf(days.Max());
        return new PlaceLoad(
            PlanLines.Kind(kind), places.Sum(place => _places[place].Spaces), [.. days.Chunk(7).Select(week => week.Max())], _problem.Start.AddDays(fullest),
            [
                .. places.Select(place => new PlaceTaken(
                    place == FrozenWhere.Hardening ? null : place, _days[place].Standing[fullest], _days[place].Planned[fullest], _places[place].Spaces)),
            ]);
    }

    private void Add(string where, bool standing, DateOnly from, DateOnly to, int spaces)
    {
        if (!_days.TryGetValue(where, out var days))
        {
            return;
        }

        for (var day = Math.Max(0, _problem.DayOf(from)); day < Math.Min(_problem.Days, _problem.DayOf(to)); day++)
        {
            (standing ? days.Standing : days.Planned)[day] += spaces;
        }
    }
}
