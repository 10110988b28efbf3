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
    public const int MostDays = 728;

    private readonly SeasonRows _rows;
    private readonly LocalDate _today;
    private readonly LocalDate _start;
    private readonly SeasonAsk _ask;
    private readonly ZoneLevels _levels;
    private readonly int _hardeningDays;
    private readonly Dictionary<Id<Domain.Benches.Bench>, Domain.Benches.Bench> _benches;
    private readonly Dictionary<Id<Domain.Crops.Crop>, Planning.Problems.Crop> _crops;

    private SeasonProblems(SeasonRows rows, LocalDate today, LocalDate start, SeasonAsk ask)
    {
        (_rows, _today, _start, _ask) = (rows, today, start, ask);
        _benches = rows.Benches.ToDictionary(bench => bench.Id);
        _levels = new ZoneLevels(rows.Zones, start, start.PlusDays(MostDays), ask.LevelsF);
        _hardeningDays = rows.Benches.Any(bench => bench.Kind == BenchKind.Hardening) ? HardeningDays() : 0;
        _crops = Moving.Select(row => row.Crop).Concat(ask.Added.Select(added => added.Crop)).DistinctBy(crop => crop.Id)
            .ToDictionary(crop => crop.Id, crop => CropTables.Of(crop, _levels, _hardeningDays));
    }

    private IEnumerable<SeasonBatch> Moving => _rows.Batches.Where(row => row.MayMove);

    /// <summary>The site's rows for its season, from this week's Monday on: zones change on a week's first day.</summary>
    public static async Task<(SeasonRows Rows, LocalDate Today, LocalDate Start)> RowsAsync(
        NurseryDbContext database, Actor actor, TimeProvider time, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var start = today.PlusDays(-((int)today.DayOfWeek - 1));
        return (await SeasonRows.LoadAsync(database, site, start, cancellation), today, start);
    }

    public static SeasonGround Of(SeasonRows rows, LocalDate today, LocalDate start, SeasonAsk ask) => new SeasonProblems(rows, today, start, ask).Ground();

    private SeasonGround Ground()
    {
        var batches = Moving.Where(row => Due(row.Wanted, row.Batch.ReadyOn) < _start.PlusDays(MostDays - WorthDays)).ToList();
        var planned = batches.ConvertAll(Batch);
        var added = _ask.Added.Select(Added).ToList();
        var last = planned.Concat(added).Select(batch => LocalDate.FromDateOnly(batch.LastReady)).DefaultIfEmpty(_start).Max().PlusDays(7);
        var problem = new Problem(
            _start.ToDateOnly(),
            Math.Clamp(Period.DaysBetween(_start, last), 28, MostDays),
            [.. _rows.Houses.Select(house => new Planning.Problems.House(house.Code, house.Name))],
            [.. _rows.Benches.Where(bench => bench.Kind != BenchKind.Hardening).Select(Bench)],
            [.. _rows.Zones.Where(zone => _benches.ContainsKey(zone.Zone.BenchId)).Select(Zone)],
            _rows.Benches.Where(bench => bench.Kind == BenchKind.Hardening).Sum(bench => bench.Capacity),
            [.. _crops.Values],
            planned,
            Frozen: [.. Frozen(), .. HardeningOutOfUse()],
            HardeningDays: _hardeningDays);
        return new SeasonGround(
            problem, new TodaysPlan(_rows, problem, _today).Of(batches), [.. batches.Select(GroundOf)], [.. LeftOut(batches)], added);
    }

    /// <summary>The planner counts one length of hardening off for all. The shortest is right for every crop, whose bench has the other days; a
    /// plan that is kept has the one it was made with.</summary>
    private int HardeningDays()
    {
        var shortest = Moving.Select(row => row.Crop.HardeningDays).DefaultIfEmpty(7).Min() + 1;
        return !_ask.Keep ? shortest : Moving
            .Select(row => _rows.Places[row.TraySet.Id].Where(place => _benches.GetValueOrDefault(place.BenchId)?.Kind == BenchKind.Growing)
                .Select(place => Period.DaysBetween(place.To, row.Batch.ReadyOn.PlusDays(1))).DefaultIfEmpty(0).Min())
            .Where(days => days is > 0 and <= 60).GroupBy(days => days)
            .OrderByDescending(group => group.Count()).ThenBy(group => group.Key).FirstOrDefault()?.Key ?? shortest;
    }

    private BatchGround GroundOf(SeasonBatch row) => new(
        row.Batch.Id.Value, row.TraySet.Id.Value, row.Batch.Code, $"{row.Crop.Name} ‘{row.Variety.Name}’", row.Batch.Version, row.TraySet.Trays,
        Places(_rows.Places[row.TraySet.Id]));

    /// <summary>Reservations in words that are the same as long as they are.</summary>
    internal static string Places(IEnumerable<Reservation> rows) => string.Join(
        "; ", rows.OrderBy(row => row.Days.Start).ThenBy(row => row.Trays.First).Select(row => $"{row.BenchId.Value:N} {row.Spaces} {row.Days}"));

    private Planning.Problems.Bench Bench(Domain.Benches.Bench bench) => new(
        bench.Code, _rows.Houses.Single(house => house.Id == bench.HouseId).Code,
        bench.Kind == BenchKind.Germination ? BenchUse.Heat : bench.Band == Band.Cool ? BenchUse.Cool : BenchUse.Warm,
        bench.Capacity, bench.WidthCm / 2.54, bench.LengthCm / 2.54, OutOfUse(outage => outage.ZoneId is null && outage.BenchId == bench.Id));

    /// <summary>Null, so that nothing is written, when it can be used all season.</summary>
    private List<OutOfUse>? OutOfUse(Func<SeasonOutage, bool> which) =>
        _rows.Outages.Where(which).Select(Days).ToList() is { Count: > 0 } spans ? spans : null;

    private static OutOfUse Days(SeasonOutage outage) => new(outage.From.ToDateOnly(), outage.To.ToDateOnly());

    /// <summary>Hardening is one pool in the plan: a bench of it that is out of use is held.</summary>
    private IEnumerable<FrozenStay> HardeningOutOfUse() =>
        from outage in _rows.Outages
        where _benches.GetValueOrDefault(outage.BenchId)?.Kind == BenchKind.Hardening
        let days = Days(outage)
        select new FrozenStay(FrozenWhere.Hardening, days.From, days.To, 1, _benches[outage.BenchId].Capacity);

    private Planning.Problems.HeatZone Zone(ZoneProgram zone) => new(
        zone.Zone.Code, _benches[zone.Zone.BenchId].Code, zone.Zone.Spaces.First, zone.Zone.Spaces.Count,
        _levels.Of(zone, _start, _start.PlusDays(MostDays)), ZoneLevels.F(zone.On(_start)),
        OutOfUse(outage => outage.ZoneId == zone.Zone.Id));

    /// <summary>The day its trays should be gone: as the order wants it less the site's margin.</summary>
    private LocalDate Due(LocalDate? wanted, LocalDate ready) => (wanted?.PlusDays(-_rows.Site.MarginDays) ?? ready).PlusDays(1);

    private LocalDate OnTime(LocalDate? wanted, LocalDate ready) => LocalDate.Max(Due(wanted, ready), (wanted ?? ready).PlusDays(1));

    /// <summary>Worth it, or as soon as it can be, so that a late batch is planned late instead of not at all.</summary>
    private LocalDate LastLate(LocalDate? wanted, LocalDate ready, Planning.Problems.Crop crop)
    {
        var heat = crop.Table.Count == 0 ? 0 : crop.Table.Min(at => (int)Math.Ceiling(1 / at.ProgressPerDay));
        return LocalDate.Max(OnTime(wanted, ready), _today.PlusDays(heat + AfterHeat(crop))).PlusDays(WorthDays);
    }

    private int AfterHeat(Planning.Problems.Crop crop) => (crop.WarmDays ?? crop.CoolDays ?? 0) + _hardeningDays;

    private Planning.Problems.Batch Batch(SeasonBatch row)
    {
        var (crop, now) = (_crops[row.Crop.Id], Now(row));
        var spaces = row.TraySet.SpacesFor(row.TraySet.Trays);
        var (due, ready) = (Due(row.Wanted, row.Batch.ReadyOn), row.Batch.ReadyOn);
        var (first, last) = (due.PlusDays(-EarlyDays), LastLate(row.Wanted, ready, crop));
        if (_ask.Keep && AsPlanned(row, now, crop) is { } planned)
        {
            (first, last) = (LocalDate.Min(first, planned), LocalDate.Max(last, planned));
        }

        return new Planning.Problems.Batch(
            row.Batch.Code, crop.Id, row.TraySet.Trays, due.ToDateOnly(), spaces, spaces, first.ToDateOnly(), OnTime(row.Wanted, ready).ToDateOnly(),
            last.ToDateOnly(), _today.ToDateOnly(), now);
    }

    private Planning.Problems.Batch Added(AddedBatch added)
    {
        var crop = _crops[added.Crop.Id];
        var due = Due(added.Wanted, added.Wanted);
        return new Planning.Problems.Batch(
            added.Code, crop.Id, added.Trays, due.ToDateOnly(), added.Trays, added.Trays, due.PlusDays(-EarlyDays).ToDateOnly(),
            OnTime(added.Wanted, added.Wanted).ToDateOnly(), LastLate(added.Wanted, added.Wanted, crop).ToDateOnly(), _today.ToDateOnly());
    }

    /// <summary>When it is ready sown as today's plan has it: a plan that is kept may be so, however early or late that is.</summary>
    private LocalDate? AsPlanned(SeasonBatch row, PlaceNow? now, Planning.Problems.Crop crop)
    {
        var zone = _rows.Zones.FirstOrDefault(zone => zone.Zone.Code == now?.Zone);
        var table = zone is null ? null : crop.Table.FirstOrDefault(at => at.SetpointF.Equals(ZoneLevels.F(zone.On(row.Batch.SowOn))));
        return table is null ? null : row.Batch.SowOn.PlusDays((int)Math.Ceiling((1 / table.ProgressPerDay) - 1e-9) + AfterHeat(crop));
    }

    private PlaceNow? Now(SeasonBatch row)
    {
        var rows = _rows.Places[row.TraySet.Id].Where(place => place.To > _today).OrderBy(place => place.Days.Start).ToList();
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
        var moving = _rows.Moving();
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
                var (least, most) = _ask.SetpointsF.TryGetValue(place.Id, out var own)
                    ? (own, own)
                    : Bounds(zone, from, to, [.. crops[place.TraySetId]]);
                var first = Math.Max(zone.Zone.Spaces.First, place.Spaces.First);
                yield return new FrozenStay(
                    zone.Zone.Code, from.ToDateOnly(), to.ToDateOnly(), first - zone.Zone.Spaces.First + 1,
                    Math.Min(zone.Zone.Spaces.Last, place.Spaces.Last) - first + 1, least, most, code);
            }
        }
    }

    /// <summary>The setpoint its zone has, so that what is sown comes up as forecast; where the zone changes within one of its weeks, what
    /// its crops accept.</summary>
    public static (double Least, double Most) Bounds(ZoneProgram zone, LocalDate from, LocalDate to, List<Domain.Crops.Crop> crops)
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
