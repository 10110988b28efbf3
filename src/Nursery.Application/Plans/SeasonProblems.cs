using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.People;
using Nursery.Domain.Reservations;
using Nursery.Planning;
using Nursery.Planning.Plans;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans;

/// <summary>Makes the planner's problem of a site's own season: everything that is not sown yet may be placed anew, what is sown and what
/// shares trays stays where it is. In it a batch is ready on the first day its trays are gone, the day after the product's ready day.</summary>
internal sealed class SeasonProblems
{
    /// <summary>How late is still worth handing over, days after the order's day (common practice, no source).</summary>
    private const int WorthDays = 14;
    private const int EarlyDays = 7;
    private const int MostDays = 728;

    private readonly SeasonRows _rows;
    private readonly LocalDate _today;
    private readonly LocalDate _start;
    private readonly ZoneLevels _levels;
    private readonly int _hardeningDays;
    private readonly Dictionary<Id<Domain.Benches.Bench>, Domain.Benches.Bench> _benches;

    private SeasonProblems(SeasonRows rows, LocalDate today, LocalDate start)
    {
        (_rows, _today, _start) = (rows, today, start);
        _benches = rows.Benches.ToDictionary(bench => bench.Id);
        _levels = new ZoneLevels(rows.Zones, start, start.PlusDays(MostDays));

        // The planner counts one length of hardening off for all; the shortest is right for every crop, whose bench has the other days.
        _hardeningDays = rows.Benches.Any(bench => bench.Kind == BenchKind.Hardening)
            ? Moving.Select(row => row.Crop.HardeningDays).DefaultIfEmpty(7).Min() + 1
            : 0;
    }

    private IEnumerable<SeasonBatch> Moving => _rows.Batches.Where(row => row.MayMove);

    public static async Task<SeasonGround> LoadAsync(NurseryDbContext database, Actor actor, TimeProvider time, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);

        // Zones change on a week's first day: weeks that begin on Monday whatever the day the plan is made.
        var start = today.PlusDays(-((int)today.DayOfWeek - 1));
        return new SeasonProblems(await SeasonRows.LoadAsync(database, site, start, cancellation), today, start).Ground();
    }

    private SeasonGround Ground()
    {
        var crops = Moving.Select(row => row.Crop).DistinctBy(crop => crop.Id).ToDictionary(
            crop => crop.Id, crop => CropTables.Of(crop, _levels, _hardeningDays));
        var batches = Moving.Where(row => Due(row) < _start.PlusDays(MostDays - WorthDays)).ToList();
        var last = batches.Select(row => LastLate(row, crops[row.Crop.Id])).DefaultIfEmpty(_start).Max().PlusDays(7);
        var problem = new Problem(
            _start.ToDateOnly(),
            Math.Clamp(Period.DaysBetween(_start, last), 28, MostDays),
            [.. _rows.Houses.Select(house => new Planning.Problems.House(house.Code, house.Name))],
            [.. _rows.Benches.Where(bench => bench.Kind != BenchKind.Hardening).Select(Bench)],
            [.. _rows.Zones.Where(zone => _benches.ContainsKey(zone.Zone.BenchId)).Select(Zone)],
            _rows.Benches.Where(bench => bench.Kind == BenchKind.Hardening).Sum(bench => bench.Capacity),
            [.. crops.Values],
            [.. batches.Select(row => Batch(row, crops[row.Crop.Id]))],
            Frozen: [.. Frozen()],
            HardeningDays: _hardeningDays);
        return new SeasonGround(
            problem, new TodaysPlan(_rows, problem).Of(batches), [.. batches.Select(GroundOf)], [.. LeftOut(batches)]);
    }

    private BatchGround GroundOf(SeasonBatch row) => new(
        row.Batch.Id.Value, row.TraySet.Id.Value, row.Batch.Code, $"{row.Crop.Name} ‘{row.Variety.Name}’", row.Batch.Version, row.TraySet.Trays,
        Places(_rows.Places[row.TraySet.Id]));

    /// <summary>Reservations in words that are the same as long as they are.</summary>
    internal static string Places(IEnumerable<Reservation> rows) => string.Join(
        "; ", rows.OrderBy(row => row.Days.Start).ThenBy(row => row.Trays.First).Select(row => $"{row.BenchId.Value:N} {row.Spaces} {row.Days}"));

    private static Planning.Problems.Bench BenchOf(Domain.Benches.Bench bench, string house, BenchUse use) => new(
        bench.Code, house, use, bench.Capacity, bench.WidthCm / 2.54, bench.LengthCm / 2.54);

    private Planning.Problems.Bench Bench(Domain.Benches.Bench bench) => BenchOf(
        bench, _rows.Houses.Single(house => house.Id == bench.HouseId).Code,
        bench.Kind == BenchKind.Germination ? BenchUse.Heat : bench.Band == Band.Cool ? BenchUse.Cool : BenchUse.Warm);

    private Planning.Problems.HeatZone Zone(ZoneProgram zone) => new(
        zone.Zone.Code, _benches[zone.Zone.BenchId].Code, zone.Zone.Spaces.First, zone.Zone.Spaces.Count,
        _levels.Of(zone, _start, _start.PlusDays(MostDays)), ZoneLevels.F(zone.On(_start)));

    /// <summary>The day its trays should be gone: as the order wants it less the site's margin.</summary>
    private LocalDate Due(SeasonBatch row) =>
        (row.Wanted is { } wanted ? wanted.PlusDays(-_rows.Site.MarginDays) : row.Batch.ReadyOn).PlusDays(1);

    private LocalDate OnTime(SeasonBatch row) => LocalDate.Max(Due(row), (row.Wanted ?? row.Batch.ReadyOn).PlusDays(1));

    /// <summary>Worth it, or as soon as it can be, so that a late batch is planned late instead of not at all.</summary>
    private LocalDate LastLate(SeasonBatch row, Planning.Problems.Crop crop)
    {
        var heat = crop.Table.Count == 0 ? 0 : crop.Table.Min(at => (int)Math.Ceiling(1 / at.ProgressPerDay));
        var soonest = _today.PlusDays(heat + (crop.WarmDays ?? crop.CoolDays ?? 0) + _hardeningDays);
        return LocalDate.Max(OnTime(row), soonest).PlusDays(WorthDays);
    }

    private Planning.Problems.Batch Batch(SeasonBatch row, Planning.Problems.Crop crop)
    {
        var spaces = row.TraySet.SpacesFor(row.TraySet.Trays);
        return new Planning.Problems.Batch(
            row.Batch.Code, crop.Id, row.TraySet.Trays, Due(row).ToDateOnly(), spaces, spaces, Due(row).PlusDays(-EarlyDays).ToDateOnly(),
            OnTime(row).ToDateOnly(), LastLate(row, crop).ToDateOnly(), _today.ToDateOnly(), Now(row));
    }

    private PlaceNow? Now(SeasonBatch row)
    {
        var rows = _rows.Places[row.TraySet.Id].OrderBy(place => place.Days.Start).ToList();
        if (rows.Count == 0)
        {
            return null;
        }

        var heat = rows.Find(place => _benches.GetValueOrDefault(place.BenchId)?.Kind == BenchKind.Germination);
        var bench = rows.Find(place => _benches.GetValueOrDefault(place.BenchId)?.Kind == BenchKind.Growing);
        var zone = heat is null ? null : _rows.Zones.FirstOrDefault(zone => zone.Zone.BenchId == heat.BenchId && zone.Zone.Spaces.Overlaps(heat.Spaces));
        return new PlaceNow(
            row.Batch.SowOn.ToDateOnly(), zone?.Zone.Code, bench is null ? null : _benches[bench.BenchId].Code,
            zone is null ? 0 : Math.Max(1, heat!.Spaces.First - zone.Zone.Spaces.First + 1), bench?.Spaces.First ?? 0, bench?.Spaces.First ?? 0);
    }

    /// <summary>Everything that holds spaces and does not move.</summary>
    private IEnumerable<FrozenStay> Frozen()
    {
        var moving = Moving.Select(row => row.TraySet.Id).ToHashSet();
        var crops = _rows.Batches.ToLookup(row => row.TraySet.Id, row => row.Crop);
        var codes = _rows.Batches.DistinctBy(row => row.TraySet.Id).ToDictionary(row => row.TraySet.Id, row => row.Batch.Code);
        foreach (var place in _rows.Places.Where(group => !moving.Contains(group.Key)).SelectMany(group => group)
            .Where(place => _benches.ContainsKey(place.BenchId)).OrderBy(place => place.Days.Start).ThenBy(place => place.Id))
        {
            var bench = _benches[place.BenchId];
            var (from, to) = (LocalDate.Max(_start, place.Days.Start), place.To);
            var code = codes.GetValueOrDefault(place.TraySetId);
            if (bench.Kind != BenchKind.Germination)
            {
                yield return new FrozenStay(
                    bench.Kind == BenchKind.Hardening ? FrozenWhere.Hardening : bench.Code, from.ToDateOnly(), to.ToDateOnly(),
                    place.Spaces.First, place.Spaces.Count, Batch: code);
                continue;
            }

            foreach (var zone in _rows.Zones.Where(zone => zone.Zone.BenchId == bench.Id && zone.Zone.Spaces.Overlaps(place.Spaces)))
            {
                var (least, most) = Bounds(zone, from, to, [.. crops[place.TraySetId]]);
                var first = Math.Max(zone.Zone.Spaces.First, place.Spaces.First);
                yield return new FrozenStay(
                    zone.Zone.Code, from.ToDateOnly(), to.ToDateOnly(), first - zone.Zone.Spaces.First + 1,
                    Math.Min(zone.Zone.Spaces.Last, place.Spaces.Last) - first + 1, least, most, code);
            }
        }
    }

    /// <summary>The setpoint its zone has, so that what is sown comes up as forecast; where the zone changes within one of its weeks, what
    /// its crops accept.</summary>
    private static (double Least, double Most) Bounds(ZoneProgram zone, LocalDate from, LocalDate to, List<Domain.Crops.Crop> crops)
    {
        var monday = from.PlusDays(-((int)from.DayOfWeek - 1));
        var weeks = zone.Over(monday, to.PlusDays((7 - Period.DaysBetween(monday, to) % 7) % 7));
        return weeks.Count == 1 || crops.Count == 0
            ? (ZoneLevels.F(weeks[0]), ZoneLevels.F(weeks[0]))
            : (crops.Max(crop => ZoneLevels.F(crop.GerminationMinC)), crops.Min(crop => ZoneLevels.F(crop.GerminationMaxC)));
    }

    private IEnumerable<string> LeftOut(List<SeasonBatch> planned)
    {
        foreach (var set in _rows.Batches.Where(row => row.Sharing > 1 && row.Batch.State.Stage == Domain.Batches.BatchStage.Planned).GroupBy(row => row.TraySet.Id))
        {
            var codes = string.Join(", ", set.Select(row => row.Batch.Code));
            yield return _rows.Places[set.Key].Any()
                ? $"{codes} share trays and stay where they are reserved"
                : $"{codes} share trays and are not planned: place them on Batches";
        }

        var far = Moving.Except(planned).Select(row => row.Batch.Code).ToList();
        if (far.Count > 0)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", far)}: due more than {MostDays / 7} weeks from now, not planned yet");
        }
    }
}
