using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;

namespace Nursery.Application.HeatZones;

internal sealed class ZoneList : SetupList<HeatZone>
{
    public override SetupListInfo Info { get; } = new("heat-zones", "Heat zones", "heat zone", Right.Plan,
    [
        new("bench", "Bench", ColumnKind.Code) { Of = "benches", Hint = "a germination bench" },
        new("code", "Code") { Hint = "as on the thermostat: Z1" },
        new("first_space", "First space", ColumnKind.Whole),
        new("spaces", "Spaces", ColumnKind.Whole),
        new("setpoint_c", "Setpoint", ColumnKind.Celsius),
        new("reads_c", "Reads", ColumnKind.Celsius) { MayBeEmpty = true, Hint = "what the probe in the mix last read" },
        new("mat_watts_m2", "Heating at full power, W/m²", ColumnKind.Number) { MayBeEmpty = true, IsLater = true, Hint = "as its plate says; 12 W a square foot are 129; empty: 135 assumed" },
    ]);

    public override Dictionary<string, HeatZone> Of(NurseryRows rows) => rows.Zones;

    public override HeatZone? Read(CsvRow line, NurseryRows rows, HeatZone? known)
    {
        if (line.Of("bench", rows.Benches, "a bench") is not { } bench)
        {
            return null;
        }

        var run = new SpaceRun(line.Whole("first_space", 1, bench.Capacity), line.Whole("spaces", 1, bench.Capacity));
        var reads = line.NumberOrEmpty("reads_c", ZoneReading.LeastC, ZoneReading.MostC);
        var zone = new HeatZone
        {
            Id = known?.Id ?? NewId.Of<HeatZone>(rows.Time),
            SiteId = bench.SiteId,
            BenchId = bench.Id,
            Code = line.Text("code", 20),
            Spaces = run,
            SetpointC = decimal.Round(line.Number("setpoint_c", 0, 60), 2),
            ReadsC = reads,
            ReadAt = reads is null ? null : reads == known?.ReadsC ? known?.ReadAt : rows.Now,
            MatWattsM2 = line.NumberOrEmpty("mat_watts_m2", 20, 500),
            OffsetC = known?.OffsetC,
            OffsetLowC = known?.OffsetLowC,
            OffsetHighC = known?.OffsetHighC,
            OffsetBatches = known?.OffsetBatches ?? 0,
            Version = (known?.Version ?? 0) + 1,
        };
        if (bench.Kind != BenchKind.Germination || bench.RetiredOn is not null)
        {
            line.Fail("bench", "a germination bench");
        }

        var over = rows.Zones.Values.Where(other => other.BenchId == bench.Id && other.Spaces.Overlaps(run)).Select(other => other.Code).ToList();
        if (run.Last > bench.Capacity || over.Count > 0)
        {
            var names = over.Count > 0 ? $"; this one overlaps {string.Join(", ", over)}" : "";
            line.Fail("spaces", $"a run that ends on bench {bench.Code} (space {bench.Capacity}) and overlaps no other zone{names}");
        }

        return zone;
    }

    protected override IReadOnlyDictionary<string, string> Fields(HeatZone row, NurseryRows rows) => new Dictionary<string, string>
    {
        ["bench"] = rows.Benches.Values.First(bench => bench.Id == row.BenchId).Code,
        ["code"] = row.Code,
        ["first_space"] = Cell.Of(row.Spaces.First),
        ["spaces"] = Cell.Of(row.Spaces.Count),
        ["setpoint_c"] = Cell.Degrees(row.SetpointC),
        ["reads_c"] = Cell.Degrees(row.ReadsC),
        ["mat_watts_m2"] = Cell.Of(row.MatWattsM2),
    };

    protected override Guid IdOf(HeatZone row) => row.Id.Value;

    protected override int VersionOf(HeatZone row) => row.Version;

    protected override LocalDate? RetiredOn(HeatZone row) => null;

    protected override IEnumerable<HeatZone> Sorted(IEnumerable<HeatZone> all, NurseryRows rows) =>
        all.OrderBy(row => row.Code, StringComparer.Ordinal);

    public override Task LockAsync(NurseryDbContext database, NurseryRows rows, CancellationToken cancellation) =>
        database.LockBenchesAsync(rows.Benches.Values.Select(bench => bench.Id), cancellation);

    protected override async Task CheckAsync(
        NurseryDbContext database, CsvRow line, HeatZone known, HeatZone read, NurseryRows rows, CancellationToken cancellation)
    {
        var today = rows.Site.Today(rows.Time);
        var lying = await ZoneLoad.OfAsync(database, read, today, null, cancellation);
        var harmed = lying.Where(trays => !trays.Crop.Accepts(read.SetpointC)).ToList();
        if ((read.SetpointC != known.SetpointC || read.BenchId != known.BenchId || read.Spaces != known.Spaces) && harmed.Count > 0)
        {
            line.Fail("setpoint_c", "what seed that lies there accepts: " + string.Join("; ", harmed.Take(5)
                .Select(trays => $"{trays.TraySetCode} {trays.Crop.Name} needs {Cell.Degrees(trays.Crop.GerminationMinC)}–{Cell.Degrees(trays.Crop.GerminationMaxC)} °C").Distinct()));
        }

        if (read.BenchId != known.BenchId || !read.Spaces.Contains(known.Spaces))
        {
            var stay = lying.Select(trays => trays.TraySetCode).ToHashSet();
            var left = (await ZoneLoad.OfAsync(database, known, today, null, cancellation))
                .Select(trays => trays.TraySetCode).Where(code => !stay.Contains(code)).Distinct().ToList();
            if (left.Count > 0)
            {
                line.Fail("spaces", $"heat for the trays that lie there: {string.Join(", ", left.Take(5))} would lose theirs");
            }
        }
    }

    public override void Store(NurseryDbContext database, Staged staged, NurseryRows rows, Actor actor)
    {
        var read = (HeatZone)staged.Read;
        if (staged.Known is HeatZone known && known.SetpointC != read.SetpointC)
        {
            database.Write(
                rows.Site, actor, rows.Time, new SetpointChanged(read.Id, read.SetpointC, Cell.Of(rows.Site.Today(rows.Time)), null),
                bench: read.BenchId);
        }

        if (read.ReadsC is { } reads && reads != (staged.Known as HeatZone)?.ReadsC)
        {
            database.Add(new ZoneReading { ZoneId = read.Id, SiteId = read.SiteId, At = read.ReadAt!.Value, TemperatureC = reads });
        }

        base.Store(database, staged, rows, actor);
    }

    public override async Task<bool> RetireAsync(NurseryDbContext database, string key, NurseryRows rows, CancellationToken cancellation)
    {
        var zone = rows.Zones[key];
        var lying = await ZoneLoad.OfAsync(database, zone, rows.Site.Today(rows.Time), null, cancellation);
        if (lying.Count > 0)
        {
            throw new InUse($"Zone {zone.Code} still warms or is promised to trays: {string.Join(", ", lying.Select(trays => trays.TraySetCode).Distinct().Take(5))}. Move them first");
        }

        // Nothing but its spans of days refers to a zone; the ledger keeps what it was set to.
        database.ZoneSetpoints.RemoveRange(await database.ZoneSetpoints.Where(span => span.ZoneId == zone.Id).ToListAsync(cancellation));
        database.Remove(zone);
        return true;
    }
}
