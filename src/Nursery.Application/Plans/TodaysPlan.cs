using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Reservations;
using Nursery.Planning;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;
using Nursery.Planning.Scoring;

namespace Nursery.Application.Plans;

/// <summary>The reservations in force, read as a plan, so that the same prices tell what it costs. A zone counts as off in weeks in which no
/// tray lies on it, as in a proposal. Places that are past by now are none: what should have stood there was not sown.</summary>
internal sealed class TodaysPlan(SeasonRows rows, Problem problem, LocalDate today)
{
    private readonly Dictionary<Id<Domain.Benches.Bench>, Domain.Benches.Bench> _benches = rows.Benches.ToDictionary(bench => bench.Id);

    public Plan Of(IReadOnlyList<SeasonBatch> batches)
    {
        var placed = new List<PlannedBatch>();
        var unplaced = new List<Unplaced>();
        foreach (var row in batches)
        {
            if (Placed(row) is { } batch)
            {
                placed.Add(batch);
            }
            else
            {
                unplaced.Add(new Unplaced(row.Batch.Code, row.TraySet.Trays, WhyNot.NoSpaceFound, "It has no place on heat and on a bench yet."));
            }
        }

        var plan = new Plan(placed, [.. rows.Zones.Where(zone => problem.Zones.Any(known => known.Id == zone.Zone.Code)).Select(zone => Path(zone, placed))], unplaced, Score.None);
        return plan with { Score = new Scorer(problem).Of(plan) };
    }

    private PlannedBatch? Placed(SeasonBatch row)
    {
        var places = rows.Places[row.TraySet.Id].Where(place => place.To > today && _benches.ContainsKey(place.BenchId)).OrderBy(place => place.Days.Start).ThenBy(place => place.Trays.First).ToList();
        var heat = places.Where(place => _benches[place.BenchId].Kind == BenchKind.Germination).ToList();
        var bench = places.Where(place => _benches[place.BenchId].Kind == BenchKind.Growing).ToList();
        var stays = heat.SelectMany(Stays).ToList();
        if (stays.Count == 0 || bench.Count == 0)
        {
            return null;
        }

        // Where it goes first says its zone; trays moved on from there are moves of the day, not of the plan.
        var (off, gone) = (heat.Max(place => place.To), bench.Max(place => place.To));
        var ready = LocalDate.Max(row.Batch.ReadyOn.PlusDays(1), gone);
        return new PlannedBatch(
            row.Batch.Code, row.Batch.SowOn.ToDateOnly(), off.ToDateOnly(), off.PlusDays(Period.DaysBetween(off, gone) / 2).ToDateOnly(), gone.ToDateOnly(),
            ready.ToDateOnly(), ZoneLevels.F(rows.Zones.First(zone => zone.Zone.Code == stays[0].Zone).On(row.Batch.SowOn)),
            _benches[bench[0].BenchId].Band == Band.Cool ? BenchUse.Cool : BenchUse.Warm, stays,
            [.. bench.Select(place => new BenchStay(
                _benches[place.BenchId].Code, place.Spaces.First, place.Spaces.Count, place.Spaces.First, place.Spaces.Count))]);
    }

    private IEnumerable<HeatStay> Stays(Reservation place) =>
        from zone in rows.Zones
        where zone.Zone.BenchId == place.BenchId && zone.Zone.Spaces.Overlaps(place.Spaces)
        let first = Math.Max(zone.Zone.Spaces.First, place.Spaces.First)
        select new HeatStay(zone.Zone.Code, first - zone.Zone.Spaces.First + 1, Math.Min(zone.Zone.Spaces.Last, place.Spaces.Last) - first + 1);

    private ZonePath Path(ZoneProgram zone, List<PlannedBatch> placed)
    {
        var id = zone.Zone.Code;
        var stays = placed.Where(batch => batch.Heat.Any(stay => stay.Zone == id)).Select(batch => (batch.SowOn, To: batch.MoveOffOn))
            .Concat((problem.Frozen ?? []).Where(stay => stay.Where == id).Select(stay => (stay.From, stay.To))).ToList();
        var spans = new List<SetpointSpan>();
        for (var day = problem.Start; day < problem.End; day = day.AddDays(7))
        {
            var to = day.AddDays(7) < problem.End ? day.AddDays(7) : problem.End;
            double? setpoint = stays.Any(stay => stay.Item1 < to && stay.To > day) ? ZoneLevels.F(zone.On(LocalDate.FromDateOnly(day))) : null;
            if (spans.Count > 0 && spans[^1].SetpointF == setpoint)
            {
                spans[^1] = spans[^1] with { To = to };
            }
            else
            {
                spans.Add(new SetpointSpan(day, to, setpoint));
            }
        }

        return new ZonePath(id, spans);
    }
}
