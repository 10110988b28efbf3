using NodaTime;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;

namespace Nursery.Application.Scenario;

/// <summary>Benches and their heat zones, as their files tell them.</summary>
internal static class BenchFiles
{
    public static async Task<Dictionary<string, Bench>> BenchesAsync(
        ScenarioFolder folder, Dictionary<string, House> houses, TimeProvider time, CancellationToken cancellation)
    {
        var benches = new Dictionary<string, Bench>();
        var rows = await folder.ReadAsync(
            "benches.csv", "house,code,name,kind,band,length_cm,width_cm,x_cm,y_cm,spaces,rows,round_order", cancellation);
        foreach (var row in rows)
        {
            if (row.Of("house", houses, "a house") is not { } house)
            {
                continue;
            }

            var bench = BenchOf(row, house, time);
            if (bench.XCm + bench.LengthCm > house.LengthCm || bench.YCm + bench.WidthCm > house.WidthCm)
            {
                row.Fail(bench.XCm + bench.LengthCm > house.LengthCm ? "x_cm" : "y_cm", $"a bench inside house {house.Code}");
            }

            if (benches.Values.FirstOrDefault(other => other.HouseId == house.Id && Overlap(bench, other)) is { } under)
            {
                row.Fail("x_cm", $"a bench over no other: this one lies over bench {under.Code}");
            }

            row.Add("code", benches, bench);
        }

        folder.Done();
        return benches;
    }

    private static Bench BenchOf(CsvRow row, House house, TimeProvider time)
    {
        var kind = row.Word("kind", new Dictionary<string, BenchKind>
        {
            ["germination"] = BenchKind.Germination,
            ["growing"] = BenchKind.Growing,
            ["hardening"] = BenchKind.Hardening,
        });
        if (kind != BenchKind.Growing && !row.IsEmpty("band"))
        {
            row.Fail("band", "empty, unless the bench is a growing bench");
        }

        return new Bench
        {
            Id = NewId.Of<Bench>(time),
            SiteId = house.SiteId,
            HouseId = house.Id,
            Code = row.Text("code", 20),
            Name = row.Text("name"),
            Kind = kind,
            Band = kind == BenchKind.Growing ? row.Word("band", CropFiles.Bands) : null,
            LengthCm = row.Whole("length_cm", 1, SiteFiles.MostCm),
            WidthCm = row.Whole("width_cm", 1, SiteFiles.MostCm),
            XCm = row.Whole("x_cm", 0, SiteFiles.MostCm),
            YCm = row.Whole("y_cm", 0, SiteFiles.MostCm),
            Capacity = row.Whole("spaces", 1, 10_000),
            Rows = row.Whole("rows", 1, 100),
            RoundOrder = row.Whole("round_order", 1, 1000),
        };
    }

    private static bool Overlap(Bench one, Bench other) =>
        one.XCm < other.XCm + other.LengthCm && other.XCm < one.XCm + one.LengthCm
        && one.YCm < other.YCm + other.WidthCm && other.YCm < one.YCm + one.WidthCm;

    public static async Task<Dictionary<string, HeatZone>> ZonesAsync(
        ScenarioFolder folder, Dictionary<string, Bench> benches, TimeProvider time, CancellationToken cancellation)
    {
        var zones = new Dictionary<string, HeatZone>();
        foreach (var row in await folder.ReadAsync("heat_zones.csv", "bench,code,first_space,spaces,setpoint_c,reads_c", cancellation))
        {
            if (row.Of("bench", benches, "a bench") is not { } bench)
            {
                continue;
            }

            var run = new SpaceRun(row.Whole("first_space", 1, bench.Capacity), row.Whole("spaces", 1, bench.Capacity));
            var reads = row.NumberOrEmpty("reads_c", 0, 60);
            var zone = new HeatZone
            {
                Id = NewId.Of<HeatZone>(time),
                SiteId = bench.SiteId,
                BenchId = bench.Id,
                Code = row.Text("code", 20),
                Spaces = run,
                SetpointC = row.Number("setpoint_c", 0, 60),
                ReadsC = reads,
                ReadAt = reads is null ? null : Instant.FromDateTimeOffset(time.GetUtcNow()),
            };
            if (bench.Kind != BenchKind.Germination)
            {
                row.Fail("bench", "a germination bench");
            }

            if (run.Last > bench.Capacity || zones.Values.Any(other => other.BenchId == bench.Id && other.Spaces.Overlaps(run)))
            {
                row.Fail("spaces", $"a run that ends on bench {bench.Code} (space {bench.Capacity}) and overlaps no other zone");
            }

            row.Add("code", zones, zone);
        }

        folder.Done();
        return zones;
    }
}
