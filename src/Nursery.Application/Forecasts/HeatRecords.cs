using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;

namespace Nursery.Application.Forecasts;

/// <summary>What the mix of tray sets had, from where they stood and what the zones under them were set to, day by day. The first tray speaks
/// for all. A zone read within two days has what it reads from that day on; the mix is less than both by the usual offset. Off the heat it
/// has what growing benches usually have (from memory).</summary>
internal sealed class HeatRecords
{
    private static readonly Duration Fresh = Duration.FromDays(2);
    private const decimal WarmC = 20;
    private const decimal CoolC = 16;
    private const decimal OutsideC = 12;

    private readonly Dictionary<Id<Bench>, Bench> _benches;
    private readonly ILookup<Id<Bench>, ZoneProgram> _zones;
    private readonly Site _site;
    private readonly LocalDate _today;
    private readonly Instant _now;

    private HeatRecords(Dictionary<Id<Bench>, Bench> benches, ILookup<Id<Bench>, ZoneProgram> zones, Site site, Instant now) =>
        (_benches, _zones, _site, _today, _now) = (benches, zones, site, site.DayOf(now), now);

    public static async Task<HeatRecords> LoadAsync(NurseryDbContext database, Site site, Instant now, CancellationToken cancellation)
    {
        var benches = await database.Benches.AsNoTracking().Where(bench => bench.SiteId == site.Id).ToDictionaryAsync(bench => bench.Id, cancellation);
        var zones = await database.HeatZones.AsNoTracking().Where(zone => zone.SiteId == site.Id).ToListAsync(cancellation);
        var spans = await database.ZoneSetpoints.AsNoTracking().Where(span => span.SiteId == site.Id).ToListAsync(cancellation);
        return new HeatRecords(
            benches, zones.OrderBy(zone => zone.Spaces.First).ToLookup(zone => zone.BenchId, zone => new ZoneProgram(zone, spans)), site, now);
    }

    /// <param name="crop">Whose seed it is.</param>
    /// <param name="sown">Day of sowing.</param>
    /// <param name="places">Day, bench and first space, in order; where they will be by plan when they are not sown.</param>
    public HeatRecord Of(Crop crop, LocalDate sown, IReadOnlyList<(LocalDate Day, Id<Bench> Bench, int? Space)> places)
    {
        var until = LocalDate.Max(_today, sown).PlusDays(1);
        var steps = new List<(LocalDate Day, Temperature Mix)>();
        ZoneProgram? heat = null;
        for (var index = 0; index < places.Count; index++)
        {
            var (from, to) = (LocalDate.Max(sown, places[index].Day), index + 1 < places.Count ? places[index + 1].Day : until);
            if (to <= from || !_benches.TryGetValue(places[index].Bench, out var bench))
            {
                continue;
            }

            var zone = bench.Kind == BenchKind.Germination ? ZoneAt(bench, places[index].Space) : null;
            heat ??= zone;
            steps.AddRange(zone is null ? [(from, Ambient(bench, crop))] : OnHeat(zone, from, to));
        }

        var assumed = new Temperature(crop.GerminationOptimumC);
        var resow = heat is null ? assumed : MediaOffset.Of(new Temperature(heat.On(_today)));
        if (steps.Count == 0)
        {
            return new HeatRecord(TemperatureRecord.Constant(assumed), assumed, assumed, "best temperature of the crop, as no place is known");
        }

        // Before anyone put them somewhere they had what they had first.
        var record = new List<(double Day, Temperature Mix)> { (0, steps[0].Mix) };
        foreach (var step in steps.GroupBy(step => step.Day).Select(day => day.Last()).OrderBy(step => step.Day))
        {
            var day = Math.Min(366, Period.DaysBetween(sown, step.Day));
            if (day > record[^1].Day && step.Mix != record[^1].Mix)
            {
                record.Add((day, step.Mix));
            }
        }

        return new HeatRecord(
            new TemperatureRecord(record), steps[0].Mix, resow,
            heat is null ? "usual temperature of the bench, from memory" : $"zone {heat.Zone.Code}, its setpoints{(IsFresh(heat.Zone) ? " and reading" : "")} less the usual 2 °F (1.1 °C)");
    }

    /// <summary>Code of the bench's house is not here; the id is.</summary>
    public Bench? BenchOf(Id<Bench> bench) => _benches.GetValueOrDefault(bench);

    private IEnumerable<(LocalDate Day, Temperature Mix)> OnHeat(ZoneProgram zone, LocalDate from, LocalDate to)
    {
        foreach (var stretch in zone.Stretches(from, to))
        {
            yield return (stretch.From, MediaOffset.Of(new Temperature(stretch.SetpointC)));
        }

        if (IsFresh(zone.Zone) && zone.Zone is { ReadsC: { } reads, ReadAt: { } at } && _site.DayOf(at) is var day && to > day)
        {
            yield return (LocalDate.Max(from, day), MediaOffset.Of(new Temperature(reads)));
        }
    }

    private bool IsFresh(HeatZone zone) => zone is { ReadsC: not null, ReadAt: { } at } && at > _now - Fresh;

    private ZoneProgram? ZoneAt(Bench bench, int? space) => _zones[bench.Id]
        .FirstOrDefault(zone => space is null || (zone.Zone.Spaces.First <= space && space <= zone.Zone.Spaces.Last));

    private static Temperature Ambient(Bench bench, Crop crop) => new(bench.Kind switch
    {
        BenchKind.Hardening => OutsideC,
        _ => (bench.Band ?? crop.GrowOnBand) == Band.Warm ? WarmC : CoolC,
    });
}
