using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.TraySets;
using Nursery.Planning;

namespace Nursery.Application.Plans.Changes;

/// <summary>Where trays must go: on a bench of a kind and band, on heat at a setpoint, for some days.</summary>
/// <param name="From">First day.</param>
/// <param name="To">First day no longer.</param>
/// <param name="Was">The bench they come from: near it is better.</param>
/// <param name="SetpointF">°F on heat, else null.</param>
internal sealed record PlaceNeed(LocalDate From, LocalDate To, Bench Was, double? SetpointF);

/// <summary>A free run of spaces, on heat within one zone.</summary>
/// <param name="Set">The zone is set to something else on some of the days.</param>
internal sealed record FreePlace(Bench Bench, HeatZone? Zone, SpaceRun Spaces, bool Set);

/// <summary>What is free in a season beside what stays and, where it can be, beside what is planned and not sown.</summary>
internal sealed class FreePlaces
{
    /// <summary>More parts than that of one tray set are more walking than they are worth while other batches can still be moved.</summary>
    private const int MostParts = 4;

    private readonly SeasonRows _rows;
    private readonly LocalDate _start;
    private readonly ZoneLevels _levels;
    private readonly Dictionary<Id<HeatZone>, IReadOnlyList<double>> _allowed;
    private readonly Dictionary<Id<Bench>, List<Held>> _stays = [];
    private readonly Dictionary<Id<Bench>, List<Held>> _planned = [];
    private readonly List<(Id<HeatZone> Zone, LocalDate From, LocalDate To, double Least, double Most)> _lying = [];
    private readonly List<(Id<HeatZone> Zone, LocalDate From, LocalDate To)> _plannedOnHeat = [];

    /// <param name="rows">The season with everything that is out of use.</param>
    /// <param name="start">First day of it, a Monday.</param>
    /// <param name="affected">Tray sets that are about to be placed: nothing is held for them yet.</param>
    public FreePlaces(SeasonRows rows, LocalDate start, IReadOnlySet<Id<TraySet>> affected)
    {
        (_rows, _start) = (rows, start);
        _levels = new ZoneLevels(rows.Zones, start, start.PlusDays(SeasonProblems.MostDays));
        _allowed = rows.Zones.ToDictionary(zone => zone.Zone.Id, zone => _levels.Of(zone, start, start.PlusDays(SeasonProblems.MostDays)));
        foreach (var outage in rows.Outages)
        {
            if (rows.Hit(outage) is { } hit)
            {
                Add(_stays, hit.Bench, hit.Spaces, outage.From, outage.To);
            }
        }

        var moving = rows.Moving();
        var crops = rows.Batches.ToLookup(row => row.TraySet.Id, row => row.Crop);
        var benches = rows.Benches.ToDictionary(bench => bench.Id);
        foreach (var place in rows.Places.Where(group => !affected.Contains(group.Key)).SelectMany(group => group))
        {
            if (!benches.TryGetValue(place.BenchId, out var bench))
            {
                continue;
            }

            var planned = moving.Contains(place.TraySetId);
            Add(planned ? _planned : _stays, bench, place.Spaces, place.Days.Start, place.To);
            foreach (var zone in rows.ZonesUnder(bench.Id, place.Spaces))
            {
                if (planned)
                {
                    _plannedOnHeat.Add((zone.Zone.Id, place.Days.Start, place.To));
                }
                else
                {
                    var (least, most) = SeasonProblems.Bounds(zone, LocalDate.Max(start, place.Days.Start), place.To, [.. crops[place.TraySetId]]);
                    _lying.Add((zone.Zone.Id, place.Days.Start, place.To, least, most));
                }
            }
        }
    }

    /// <summary>The first day from a day on, before another, on which trays cannot stand on spaces; null when they can on all.</summary>
    public LocalDate? FirstTaken(Bench bench, SpaceRun spaces, LocalDate from, LocalDate to)
    {
        var taken = Of(_stays, bench).Where(hold => hold.Covers(from.ToDateOnly(), to.ToDateOnly()) && new SpaceRun(hold.FirstSpace, hold.Spaces).Overlaps(spaces))
            .Select(hold => LocalDate.Max(from, LocalDate.FromDateOnly(hold.From))).ToList();
        return taken.Count == 0 ? null : taken.Min();
    }

    /// <summary>Holds spaces for trays that stay or were given them.</summary>
    public void Take(Bench bench, SpaceRun spaces, LocalDate from, LocalDate to, double? setpointF)
    {
        Add(_stays, bench, spaces, from, to);
        foreach (var zone in setpointF is null ? [] : _rows.ZonesUnder(bench.Id, spaces))
        {
            _lying.Add((zone.Zone.Id, from, to, setpointF!.Value, setpointF.Value));
        }
    }

    /// <summary>Places for trays of a set: in one piece if it can be, rather in a few parts than in the way of what is planned, in the end
    /// in as many parts as it takes.</summary>
    /// <returns>Each with how many trays; together fewer than asked where there are no more spaces.</returns>
    public IReadOnlyList<(FreePlace Place, int Trays)> Find(PlaceNeed need, TraySet set, int trays)
    {
        var beside = Free(need, besidePlanned: true).ToList();
        var any = new Lazy<List<FreePlace>>(() => [.. Free(need, besidePlanned: false)]);
        return Whole(beside, need, set, trays) ?? Parts(beside, set, trays, MostParts) ?? Whole(any.Value, need, set, trays)
            ?? Parts(any.Value, set, trays, MostParts) ?? Spread(any.Value, set, trays);
    }

    private static List<(FreePlace Place, int Trays)>? Whole(List<FreePlace> free, PlaceNeed need, TraySet set, int trays)
    {
        var spaces = set.SpacesFor(trays);
        var (house, bench) = (need.Was.HouseId, need.Was.Id);
        var best = free.Where(place => place.Spaces.Count >= spaces).OrderBy(place => place.Set)
            .ThenBy(place => place.Bench.Id != bench).ThenBy(place => place.Bench.HouseId != house).ThenBy(place => place.Spaces.Count).FirstOrDefault();
        return best is null ? null : [(best with { Spaces = new SpaceRun(best.Spaces.First, spaces) }, trays)];
    }

    private static List<(FreePlace Place, int Trays)>? Parts(List<FreePlace> free, TraySet set, int trays, int most)
    {
        var parts = Spread(free, set, trays);
        return parts.Count <= most && parts.Sum(part => part.Trays) == trays ? parts : null;
    }

    /// <summary>The longest runs, one after the other, until all trays stand.</summary>
    private static List<(FreePlace Place, int Trays)> Spread(List<FreePlace> free, TraySet set, int trays)
    {
        var parts = new List<(FreePlace, int)>();
        foreach (var place in free.OrderBy(place => place.Set).ThenByDescending(place => place.Spaces.Count))
        {
            var some = Math.Min(trays, (int)(place.Spaces.Count / set.Footprint));
            if (some > 0)
            {
                parts.Add((place with { Spaces = new SpaceRun(place.Spaces.First, set.SpacesFor(some)) }, some));
                trays -= some;
            }
        }

        return parts;
    }

    /// <summary>Free runs in walking order.</summary>
    private IEnumerable<FreePlace> Free(PlaceNeed need, bool besidePlanned)
    {
        foreach (var bench in _rows.Benches.Where(bench => bench.Kind == need.Was.Kind && bench.Band == need.Was.Band))
        {
            var held = besidePlanned ? [.. Of(_stays, bench), .. Of(_planned, bench)] : Of(_stays, bench);
            if (need.SetpointF is not { } setpoint)
            {
                foreach (var run in Runs(1, bench.Capacity))
                {
                    yield return new FreePlace(bench, null, run, false);
                }

                continue;
            }

            foreach (var zone in _rows.Zones.Where(zone => zone.Zone.BenchId == bench.Id
                && MayHave(zone, need.From, need.To, setpoint) && (!besidePlanned || BesidePlanned(zone, need, setpoint))))
            {
                foreach (var run in Runs(zone.Zone.Spaces.First, zone.Zone.Spaces.Count))
                {
                    yield return new FreePlace(bench, zone.Zone, run, !IsSet(zone, need, setpoint));
                }
            }

            IEnumerable<SpaceRun> Runs(int first, int count) => FreeRuns.Of(first, count, held, need.From.ToDateOnly(), need.To.ToDateOnly())
                .Select(run => new SpaceRun(run.First, run.Count));
        }
    }

    /// <summary>Whether a zone may be given a setpoint for the weeks of some days: what stays there bears it.</summary>
    public bool MayHave(ZoneProgram zone, LocalDate from, LocalDate to, double setpointF)
    {
        var (monday, end) = (Monday(from), Monday(to.PlusDays(6)));
        return _allowed[zone.Zone.Id].Contains(setpointF) && _lying.TrueForAll(
            trays => trays.Zone != zone.Zone.Id || trays.From >= end || trays.To <= monday || (trays.Least <= setpointF && setpointF <= trays.Most));
    }

    private static bool IsSet(ZoneProgram zone, PlaceNeed need, double setpointF) =>
        zone.Over(need.From, need.To).All(setpointC => ZoneLevels.F(setpointC).Equals(setpointF));

    /// <summary>Whether a zone is set so, or may be without harm to what is planned there.</summary>
    private bool BesidePlanned(ZoneProgram zone, PlaceNeed need, double setpointF)
    {
        var (monday, end) = (Monday(need.From), Monday(need.To.PlusDays(6)));
        return IsSet(zone, need, setpointF)
            || _plannedOnHeat.TrueForAll(trays => trays.Zone != zone.Zone.Id || trays.From >= end || trays.To <= monday);
    }

    private LocalDate Monday(LocalDate day) => LocalDate.Max(_start, day.PlusDays(1 - (int)day.DayOfWeek));

    private static void Add(Dictionary<Id<Bench>, List<Held>> holds, Bench bench, SpaceRun spaces, LocalDate from, LocalDate to)
    {
        if (!holds.TryGetValue(bench.Id, out var list))
        {
            holds[bench.Id] = list = [];
        }

        list.Add(new Held(bench.Id.Value, spaces.First, spaces.Count, from.ToDateOnly(), to.ToDateOnly()));
    }

    private static List<Held> Of(Dictionary<Id<Bench>, List<Held>> holds, Bench bench) => holds.GetValueOrDefault(bench.Id) ?? [];
}
