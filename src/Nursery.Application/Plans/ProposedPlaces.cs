using System.Globalization;
using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Planning;
using Nursery.Planning.Plans;

namespace Nursery.Application.Plans;

/// <summary>A zone to be set for a span of days, °C.</summary>
internal sealed record ProposedSetpoint(string Zone, decimal SetpointC, LocalDate From, LocalDate To);

/// <summary>The chosen part of a proposal on the nursery as it is now: what it would hold, and why it cannot.</summary>
internal sealed class ProposedPlaces
{
    private readonly SeasonRows _rows;
    private readonly Dictionary<string, Bench> _benches;
    private readonly Dictionary<string, ZoneProgram> _zones;
    private readonly IReadOnlyList<PlannedBatch> _chosen;
    private readonly LocalDate _today;
    private readonly Dictionary<string, ProposedPlace> _places = [];
    private readonly List<string> _reasons = [];
    private readonly List<string> _notes = [];

    public ProposedPlaces(
        SeasonRows rows, IEnumerable<Bench> benches, IReadOnlyList<PlannedBatch> chosen, IReadOnlyList<BatchGround> ground,
        IReadOnlySet<string> given, LocalDate today)
    {
        (_rows, _chosen, _today) = (rows, chosen, today);
        _benches = benches.ToDictionary(bench => bench.Code);
        _zones = rows.Zones.ToDictionary(zone => zone.Zone.Code);
        foreach (var batch in ground)
        {
            Ground(batch, given.Contains(batch.Code) ? null : chosen.First(placed => placed.Id == batch.Code));
        }

        if (_reasons.Count == 0)
        {
            Harden();
            GiveUp();
            Collisions();
        }
    }

    /// <summary>Why it cannot be accepted.</summary>
    public IReadOnlyList<string> Reasons => _reasons;

    public IReadOnlyList<string> Notes => _notes;

    public IEnumerable<ProposedPlace> All => _places.Values;

    /// <summary>Whole weeks in which accepted batches lie on a zone, from today on, where it is set to something else.</summary>
    public IEnumerable<ProposedSetpoint> Setpoints()
    {
        var weeks = (
            from batch in _chosen
            from stay in batch.Heat
            from monday in Mondays(LocalDate.FromDateOnly(batch.SowOn), LocalDate.FromDateOnly(batch.MoveOffOn))
            select (stay.Zone, Monday: monday, batch.SetpointF)).Distinct().OrderBy(week => week.Zone, StringComparer.Ordinal).ThenBy(week => week.Monday);
        foreach (var (zone, monday, setpointF) in weeks)
        {
            var (from, to) = (LocalDate.Max(_today, monday), monday.PlusDays(7));
            var wrong = _zones[zone].Over(from, to).Any(setpointC => !ZoneLevels.F(setpointC).Equals(setpointF));
            if (from < to && wrong)
            {
                yield return new ProposedSetpoint(zone, ZoneLevels.C(setpointF), from, to);
            }
        }
    }

    private static IEnumerable<LocalDate> Mondays(LocalDate from, LocalDate to)
    {
        for (var monday = from.PlusDays(1 - (int)from.DayOfWeek); monday < to; monday = monday.PlusDays(7))
        {
            yield return monday;
        }
    }

    private void Ground(BatchGround was, PlannedBatch? placed)
    {
        var row = _rows.Batches.FirstOrDefault(row => row.Batch.Id.Value == was.BatchId);
        if (row is null || !row.MayMove)
        {
            _reasons.Add($"{was.Code} is sown, shares trays or is gone by now");
        }
        else if (row.Batch.Version != was.Version || row.TraySet.Trays != was.Trays)
        {
            _reasons.Add($"{was.Code} was changed since");
        }
        else if (SeasonProblems.Places(_rows.Places[row.TraySet.Id]) != was.Places)
        {
            _reasons.Add($"{was.Code} was given other spaces since");
        }
        else if (placed is not null && LocalDate.FromDateOnly(placed.SowOn) < _today)
        {
            _reasons.Add(string.Create(CultureInfo.InvariantCulture, $"{was.Code} should have been sown on {Day(placed.SowOn)}"));
        }
        else if (placed is null)
        {
            _places[was.Code] = new ProposedPlace(row, null, []);
        }
        else if (Missing(placed) is { } missing)
        {
            _reasons.Add($"{missing} is no longer there for {was.Code}");
        }
        else
        {
            _places[was.Code] = new ProposedPlace(row, placed, [.. OnHeat(row, placed), .. OnBenches(row, placed)]);
        }
    }

    private string? Missing(PlannedBatch placed) =>
        placed.Heat.Where(stay => !_zones.TryGetValue(stay.Zone, out var zone) || stay.FirstSpace + stay.Spaces - 1 > zone.Zone.Spaces.Count)
            .Select(stay => $"Zone {stay.Zone}")
            .Concat(placed.Benches.Where(stay => !_benches.TryGetValue(stay.Bench, out var bench) || stay.FirstSpace + stay.Spaces - 1 > bench.Capacity)
                .Select(stay => $"Bench {stay.Bench}")).FirstOrDefault();

    private IEnumerable<ProposedHold> OnHeat(SeasonBatch row, PlannedBatch placed) => Parts(row, [.. placed.Heat.Select(stay => stay.Spaces)])
        .Zip(placed.Heat, (trays, stay) =>
        {
            var zone = _zones[stay.Zone].Zone;
            var bench = _benches.Values.Single(bench => bench.Id == zone.BenchId);
            return new ProposedHold(
                trays, bench, new SpaceRun(zone.Spaces.First + stay.FirstSpace - 1, stay.Spaces), LocalDate.FromDateOnly(placed.SowOn),
                LocalDate.FromDateOnly(placed.MoveOffOn));
        });

    private IEnumerable<ProposedHold> OnBenches(SeasonBatch row, PlannedBatch placed) => Parts(row, [.. placed.Benches.Select(stay => stay.Spaces)])
        .Zip(placed.Benches, (trays, stay) => new ProposedHold(
            trays, _benches[stay.Bench], new SpaceRun(stay.FirstSpace, stay.Spaces), LocalDate.FromDateOnly(placed.MoveOffOn),
            LocalDate.FromDateOnly(placed.HardenOn)));

    /// <summary>The trays that stand on each run of spaces; the last takes what is left.</summary>
    private static IEnumerable<SpaceRun> Parts(SeasonBatch row, IReadOnlyList<int> spaces)
    {
        var first = 1;
        for (var part = 0; part < spaces.Count; part++)
        {
            var left = row.TraySet.Trays - first + 1;
            var trays = part == spaces.Count - 1 ? left : Math.Clamp((int)(spaces[part] / row.TraySet.Footprint), 1, left - (spaces.Count - 1 - part));
            yield return new SpaceRun(first, trays);
            first += trays;
        }
    }

    /// <summary>The planner counts hardening as one pool: here each batch gets its spaces, the first to come first, in one piece if it can.</summary>
    private void Harden()
    {
        var benches = _rows.Benches.Where(bench => bench.Kind == BenchKind.Hardening).ToList();
        var held = Others().Where(place => benches.Exists(bench => bench.Id == place.BenchId))
            .Select(place => new Held(place.BenchId.Value, place.Spaces.First, place.Spaces.Count, place.Days.Start.ToDateOnly(), place.To.ToDateOnly()))
            .Concat(OutOfUse(benches)).ToList();
        foreach (var placed in _chosen.Where(placed => placed.HardenOn < placed.ReadyOn).OrderBy(placed => placed.HardenOn).ThenBy(placed => placed.Id, StringComparer.Ordinal))
        {
            var place = _places[placed.Id];
            var needed = place.Row.TraySet.SpacesFor(place.Row.TraySet.Trays);
            var free = benches.SelectMany(bench => FreeRuns.Of(1, bench.Capacity, [.. held.Where(hold => hold.BenchId == bench.Id.Value)], placed.HardenOn, placed.ReadyOn)
                .Select(run => (Bench: bench, Run: run))).ToList();
            var whole = free.Where(one => one.Run.Count >= needed).Take(1).ToList();
            var runs = new List<(Bench Bench, SpaceRun Spaces)>();
            foreach (var (bench, run) in whole.Count > 0 ? whole : [.. free.OrderByDescending(one => one.Run.Count)])
            {
                var take = Math.Min(run.Count, needed - runs.Sum(one => one.Spaces.Count));
                if (take > 0)
                {
                    runs.Add((bench, new SpaceRun(run.First, take)));
                }
            }

            if (runs.Sum(run => run.Spaces.Count) < needed)
            {
                _notes.Add($"{placed.Id} has no spaces for hardening off yet: not enough of them are free from {Day(placed.HardenOn)}");
                continue;
            }

            held.AddRange(runs.Select(run => new Held(run.Bench.Id.Value, run.Spaces.First, run.Spaces.Count, placed.HardenOn, placed.ReadyOn)));
            _places[placed.Id] = place with
            {
                Holds =
                [
                    .. place.Holds,
                    .. Parts(place.Row, [.. runs.Select(run => run.Spaces.Count)]).Zip(runs, (trays, run) => new ProposedHold(
                        trays, _benches[run.Bench.Code], run.Spaces, LocalDate.FromDateOnly(placed.HardenOn), LocalDate.FromDateOnly(placed.ReadyOn))),
                ],
            };
        }
    }

    private IEnumerable<Held> OutOfUse(List<Bench> benches) =>
        from outage in _rows.Outages
        from bench in benches
        where _rows.Hit(outage)?.Bench.Id == bench.Id
        select new Held(bench.Id.Value, 1, bench.Capacity, outage.From.ToDateOnly(), outage.To.ToDateOnly());

    /// <summary>Reservations of everything that is not accepted.</summary>
    private IEnumerable<Domain.Reservations.Reservation> Others()
    {
        var mine = _places.Values.Select(place => place.Row.TraySet.Id).ToHashSet();
        return _rows.Places.Where(group => !mine.Contains(group.Key)).SelectMany(group => group);
    }

    /// <summary>A batch the proposal has no place for keeps the one it has, unless accepted trays come there or its zone gets too cold or hot.</summary>
    private void GiveUp()
    {
        var holds = _places.Values.SelectMany(place => place.Holds).ToLookup(hold => hold.Bench.Id);
        var set = Setpoints().ToLookup(span => span.Zone);
        foreach (var (code, place) in _places.Where(pair => pair.Value.Placed is null).ToList())
        {
            var old = _rows.Places[place.Row.TraySet.Id].ToList();
            var taken = old.Exists(row => holds[row.BenchId].Any(hold => Meets(row, hold.Spaces, hold.From, hold.To)));
            var harmed = old.Exists(row => _zones.Values.Where(zone => zone.Zone.BenchId == row.BenchId).Any(zone => set[zone.Zone.Code].Any(
                span => Meets(row, zone.Zone.Spaces, span.From, span.To) && !place.Row.Crop.Accepts(span.SetpointC))));
            var lost = old.Select(row => _rows.OutOfUse(row.BenchId, row.Spaces, LocalDate.Max(_today, row.Days.Start), row.To)).FirstOrDefault(why => why is not null);
            if (taken || harmed || lost is not null)
            {
                _notes.Add($"{code} gives up its places: the proposal has none for it, and {(taken ? "others stand there" : harmed ? "its zone gets too cold or too hot" : lost)}");
            }
            else
            {
                _places.Remove(code);
            }
        }
    }

    internal static bool Meets(Domain.Reservations.Reservation row, SpaceRun spaces, LocalDate from, LocalDate to) =>
        row.Spaces.Overlaps(spaces) && row.Days.Start < to && row.To > from;

    private void Collisions()
    {
        var codes = _rows.Batches.DistinctBy(row => row.TraySet.Id).ToDictionary(row => row.TraySet.Id, row => row.TraySet.Code);
        var others = Others().ToLookup(place => place.BenchId);
        foreach (var (code, place) in _places)
        {
            var taken = (
                from hold in place.Holds
                from other in others[hold.Bench.Id]
                where Meets(other, hold.Spaces, hold.From, hold.To)
                select $"{code} cannot have {hold.Spaces} of bench {hold.Bench.Code}: {codes.GetValueOrDefault(other.TraySetId, "another tray set")} holds spaces there until {Day(other.To.ToDateOnly())}")
                .FirstOrDefault();
            var lost = place.Holds.Select(hold => _rows.OutOfUse(hold.Bench.Id, hold.Spaces, hold.From, hold.To)).FirstOrDefault(why => why is not null);
            if ((taken ?? (lost is null ? null : $"{code} has no place: {lost}")) is { } reason)
            {
                _reasons.Add(reason);
            }
        }
    }

    internal static string Day(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);
}
