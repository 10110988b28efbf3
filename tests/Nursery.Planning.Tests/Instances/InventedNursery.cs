using System.Globalization;
using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Planning.Tests.Instances;

/// <summary>Nurseries and seasons drawn from a seed, for measuring plans: a spring peak, 18 crops, benches sized so that a nominal
/// plan fills them to a load. The crops' figures are plausible round numbers for a test, not advice.</summary>
public static class InventedNursery
{
    private const int Horizon = 196;
    private const int LastDue = 175;
    private static readonly double[] Setpoints = [65, 70, 75, 80, 85];

    private static readonly Crop[] Crops =
    [
        Crop("lettuce", 60, 70, 75, 38, 3, 0, 24, 1.0), Crop("onion", 60, 70, 80, 38, 7, 0, 56, 1.0),
        Crop("cabbage", 60, 75, 85, 40, 4, 0, 35, 1.0), Crop("broccoli", 60, 75, 85, 40, 4, 0, 35, 1.0),
        Crop("kale", 60, 75, 85, 40, 4, 0, 32, 1.0), Crop("tomato", 70, 80, 85, 50, 6, 42, 0, 2.0),
        Crop("pepper", 75, 80, 90, 52, 8, 56, 0, 2.0), Crop("eggplant", 75, 85, 90, 52, 8, 56, 0, 2.0),
        Crop("cucumber", 75, 85, 90, 55, 4, 24, 0, 1.5), Crop("squash", 75, 85, 90, 55, 5, 21, 0, 1.5),
        Crop("basil", 70, 75, 80, 50, 5, 35, 0, 1.25), Crop("parsley", 65, 75, 80, 40, 12, 42, 49, 1.0),
        Crop("celery", 60, 70, 75, 40, 10, 0, 60, 1.0), Crop("marigold", 65, 75, 80, 45, 5, 35, 42, 1.5),
        Crop("zinnia", 70, 80, 85, 50, 5, 28, 0, 1.5), Crop("snapdragon", 60, 70, 75, 40, 9, 42, 49, 1.25),
        Crop("pansy", 60, 65, 70, 38, 10, 0, 56, 1.25), Crop("petunia", 70, 75, 80, 45, 8, 49, 56, 1.5),
    ];

    /// <summary>Batches, benches, houses of the sizes that are measured.</summary>
    public static (int Batches, int Benches, int Houses) Size(string name) => name switch
    {
        "S" => (60, 4, 2),
        "M" => (400, 12, 3),
        "L" => (2000, 60, 8),
        "XL" => (10000, 200, 20),
        _ => throw new ArgumentException($"size: \"{name}\" is none of S, M, L, XL", nameof(name)),
    };

    public static Problem Make(string size, int seed, double load)
    {
        var (batches, benches, houses) = Size(size);
        return Make(batches, benches, houses, seed, load);
    }

    /// <param name="load">Peak of the nominal plan ÷ capacity, above 0.</param>
    public static Problem Make(int batchCount, int benchCount, int houseCount, int seed, double load)
    {
        var random = new SplitMix(((ulong)seed * 7919) + (ulong)batchCount);
        var start = new DateOnly(2026, 1, 5);
        var batches = Enumerable.Range(0, batchCount).Select(index => MakeBatch(index, start, random)).ToList();
        var (heat, warm, cool, hardening) = Peaks(batches, start);
        var heated = Math.Max(1, (benchCount + 4) / 5);
        var unheated = Math.Max(2, benchCount - heated);
        var houses = Enumerable.Range(1, houseCount).Select(number => new House(Name("house", number))).ToList();
        var warmHouses = (houseCount + 1) / 2;
        var benches = new List<Bench>();
        var zones = new List<HeatZone>();
        for (var index = 0; index < heated; index++)
        {
            var share = heated >= 3 ? (index % 2 == 0 ? 0.8 : 1.2) : 1;
            var (spaces, length) = Grow(60, 2, Math.Max(1, (int)Math.Ceiling(share * heat / load / (2 * heated))));
            var bench = Name("heat", index + 1);
            benches.Add(new Bench(bench, houses[index % warmHouses].Id, BenchUse.Heat, 2 * spaces, 60, 2 * length));
            zones.Add(new HeatZone(bench + "-a", bench, 1, spaces, Setpoints));
            zones.Add(new HeatZone(bench + "-b", bench, 1 + spaces, spaces, Setpoints));
        }

        var warmBenches = Math.Clamp((int)Math.Round(unheated * warm / (warm + cool)), 1, unheated - 1);
        for (var index = 0; index < unheated; index++)
        {
            var isWarm = index < warmBenches;
            var (within, count) = isWarm ? (index, warmBenches) : (index - warmBenches, unheated - warmBenches);
            var share = count == 1 ? 1 : 0.8 + (0.4 * within / (count - 1));
            var width = new[] { 48, 60, 72 }[random.Below(3)];
            var (spaces, length) = Grow(width, 3, (int)Math.Ceiling(share * (isWarm ? warm : cool) / load / count));
            var house = isWarm ? houses[within % warmHouses] : houses[Math.Min(houseCount - 1, warmHouses + (within % Math.Max(1, houseCount - warmHouses)))];
            benches.Add(new Bench(Name(isWarm ? "warm" : "cool", within + 1), house.Id, isWarm ? BenchUse.Warm : BenchUse.Cool, spaces, width, length));
        }

        return new Problem(start, Horizon, houses, benches, zones, (int)Math.Ceiling(hardening / load), Crops, batches);
    }

    /// <summary>Trays of 10.9 × 21.4 in that lie on a bench: the first columns one way, the rest the other, both directions tried.</summary>
    public static int Slots(double length, double width)
    {
        return Math.Max(One(length, width), One(width, length));

        static int One(double length, double width)
        {
            var best = 0;
            for (var columns = 0; columns * 10.9 <= length + 1e-9; columns++)
            {
                var rest = length - (columns * 10.9);
                best = Math.Max(best, (columns * (int)(width / 21.4)) + ((int)(rest / 21.4) * (int)(width / 10.9)));
            }

            return best;
        }
    }

    private static (int Spaces, double Length) Grow(double width, double step, int wanted)
    {
        var length = step;
        while (Slots(length, width) < wanted)
        {
            length += step;
        }

        return (Slots(length, width), length);
    }

    private static Batch MakeBatch(int index, DateOnly start, SplitMix random)
    {
        var crop = Crops[random.Below(Crops.Length)];
        var trays = Math.Clamp((int)Math.Round(Math.Exp(Math.Log(12) + (0.6 * Normal(random)))), 2, 60);
        var due = random.Unit() < 0.7 ? 120 + (22 * Normal(random)) : 75 + (100 * random.Unit());
        var first = HeatDays(crop, crop.BestF) + Math.Max(crop.WarmDays ?? 0, crop.CoolDays ?? 0) + 7 + 12;
        return new Batch(Name("b", index + 1), crop.Id, trays, start.AddDays(Math.Clamp((int)Math.Round(due), first, LastDue)));
    }

    private static double Normal(SplitMix random)
    {
        var (one, two) = (1 - random.Unit(), random.Unit());
        return Math.Sqrt(-2 * Math.Log(one)) * Math.Cos(2 * Math.PI * two);
    }

    /// <summary>Largest seven-day mean of each resource when every batch is ready on its due day at its best setpoint.</summary>
    private static (double Heat, double Warm, double Cool, double Hardening) Peaks(List<Batch> batches, DateOnly start)
    {
        var loads = new double[4][];
        for (var resource = 0; resource < 4; resource++)
        {
            loads[resource] = new double[Horizon + 1];
        }

        foreach (var batch in batches)
        {
            var crop = Crops.First(crop => crop.Id == batch.Crop);
            var ready = batch.Due.DayNumber - start.DayNumber;
            var harden = ready - 7;
            var growOn = crop.WarmDays ?? crop.CoolDays!.Value;
            var emerge = harden - growOn;
            var after = batch.SpacesSpaced(crop);
            Add(loads[0], emerge - HeatDays(crop, crop.BestF), emerge, batch.Trays);
            var band = loads[crop.WarmDays is null ? 2 : 1];
            Add(band, emerge, emerge + (growOn / 2), batch.Trays);
            Add(band, emerge + (growOn / 2), harden, after);
            Add(loads[3], harden, ready, after);
        }

        return (Peak(loads[0]), Peak(loads[1]), Peak(loads[2]), Peak(loads[3]));

        static void Add(double[] load, int from, int to, int spaces)
        {
            for (var day = Math.Max(0, from); day < to; day++)
            {
                load[day] += spaces;
            }
        }

        static double Peak(double[] load) =>
            Enumerable.Range(0, load.Length - 6).Max(day => load.Skip(day).Take(7).Sum()) / 7;
    }

    private static int HeatDays(Crop crop, double setpoint) =>
        ModeTable.DaysOnHeat(crop.Table.First(row => row.SetpointF.Equals(setpoint)).ProgressPerDay);

    private static Crop Crop(
        string id, double min, double best, double max, double floor, int days, int warm, int cool, double factor)
    {
        return new(id, min, best, max,
            [.. Setpoints.Where(setpoint => setpoint >= min && setpoint <= max).Select(setpoint => new CropTemperature(setpoint, Rate(setpoint)))],
            warm == 0 ? null : warm, cool == 0 ? null : cool, factor);

        double Rate(double setpoint) => setpoint <= best
            ? (setpoint - floor) / (best - floor) / days
            : (max + 10 - setpoint) / (max + 10 - best) / days;
    }

    private static string Name(string kind, int number) => string.Create(CultureInfo.InvariantCulture, $"{kind}-{number}");
}
