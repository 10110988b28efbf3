using NodaTime;
using Nursery.Application.Benches;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;

namespace Nursery.Web.Tests.Benches;

/// <summary>Invented houses for the map.</summary>
internal static class SampleHouse
{
    public static readonly LocalDate Today = new(2026, 4, 2);

    public static BenchTrays Trays(
        string code, int? first, int count, BatchStage stage = BatchStage.Sown, bool reserved = true, bool standing = true,
        string variety = "Inkwell", string? lot = "L-0442") => new(
            code, Guid.CreateVersion7(), code[..^2], "Eggplant", variety, lot, stage, count, 36, 2, first, first is null ? null : count,
            reserved, standing, Today.PlusDays(-6), stage == BatchStage.Planned ? null : Today.PlusDays(-6), Today.PlusDays(60),
            Today.PlusDays(-6), reserved ? Today.PlusDays(14) : null);

    public static HouseBench Bench(
        string code, int x, int y, int length, int rows, int capacity, IReadOnlyList<BenchTrays> trays, params HouseZone[] zones) => new(
            Guid.CreateVersion7(), code, "Bench " + code, zones.Length > 0 ? BenchKind.Germination : BenchKind.Growing,
            zones.Length > 0 ? null : Band.Warm, x, y, length, rows * 55, capacity, rows,
            capacity - trays.Where(row => row.FirstSpace is not null)
                .SelectMany(row => Enumerable.Range(row.FirstSpace!.Value, row.Spaces!.Value)).Distinct().Count(),
            zones, trays);

    public static HousePlan House(int length, int width, params HouseBench[] benches) =>
        new(Guid.CreateVersion7(), "H1", "House 1", length, width, benches);

    public static HousePlan OfOneBench(params BenchTrays[] trays) => House(1800, 900, Bench("1A", 90, 101, 500, 3, 54, trays));

    /// <summary>Benches in a grid with aisles, filled with tray sets of random size, some of them wrong.</summary>
    public static HousePlan Generated(int seed)
    {
        var random = new Random(seed);
        var (length, width) = (random.Next(8, 40) * 100, random.Next(5, 14) * 100);
        var rows = random.Next(1, 5);
        var aisle = random.Next(80, 140);
        var benches = new List<HouseBench>();
        for (var y = aisle; y + (rows * 55) + aisle <= width; y += (rows * 55) + aisle)
        {
            for (var x = aisle; x < length - aisle - 160;)
            {
                var columns = Math.Min(random.Next(5, 60), (length - aisle - x) * 10 / 277);
                var code = $"{benches.Count + 1}A";
                benches.Add(Filled(random, code, x, y, columns, rows));
                x += (columns * 277 / 10) + aisle;
            }
        }

        return House(length, width, [.. benches]);
    }

    /// <summary>6 benches × 336 spaces, all of them taken by sets of 8 trays.</summary>
    public static HousePlan Of2000Trays() => House(
        4000,
        1800,
        [
            .. Enumerable.Range(0, 6).Select(bench => Bench(
                $"{bench + 1}A", 100, 60 + (bench * 290), 3100, 3, 336,
                [.. Enumerable.Range(0, 42).Select(set => Trays($"TO-{(bench * 42) + set:000}-K-1", (set * 8) + 1, 8, (BatchStage)(1 + (set % 5))))])),
        ]);

    private static HouseBench Filled(Random random, string code, int x, int y, int columns, int rows)
    {
        var capacity = Math.Max(1, (columns * rows) - random.Next(0, rows));
        var trays = new List<BenchTrays>();
        for (var space = 1; space <= capacity;)
        {
            var count = Math.Min(random.Next(1, 25), capacity - space + 1);
            if (random.Next(4) > 0)
            {
                var kind = random.Next(10);
                trays.Add(Trays($"EG-{random.Next(1, 999):000}-K-{trays.Count + 1}", space, count, (BatchStage)random.Next(6), kind != 0, kind > 1));
            }

            space += count;
        }

        HouseZone[] zones = random.Next(2) == 0 || capacity < 2
            ? []
            : [new HouseZone("Z1", 1, capacity / 2, 21.11m, 21.4m), new HouseZone("Z2", (capacity / 2) + 1, capacity - (capacity / 2), 26.67m, null)];
        return Bench(code, x, y, columns * 277 / 10, rows, capacity, trays, zones);
    }
}
