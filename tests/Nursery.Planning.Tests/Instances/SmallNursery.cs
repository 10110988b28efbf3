using System.Globalization;
using Nursery.Planning.Problems;
using Nursery.Planning.Search;

namespace Nursery.Planning.Tests.Instances;

/// <summary>Seasons of a few batches on a few spaces, tight enough that batches get into each other's way. Splits cost more than
/// leaving trays out, so that the best plan has none.</summary>
internal static class SmallNursery
{
    public static readonly DateOnly Start = new(2026, 1, 5);

    public static Problem Make(ulong seed)
    {
        var random = new SplitMix(seed);
        var spaces = 3 + random.Below(3);
        Crop[] crops =
        [
            new("cool", 60, 65, 70, [new(65, 0.25), new(70, 0.34)], null, 10, 1),
            new("warm", 70, 75, 75, [new(70, 0.2), new(75, 0.34)], 9, null, 1.5),
            new("either", 65, 70, 75, [new(65, 0.21), new(70, 0.25), new(75, 0.34)], 7, 9, 1),
        ];
        return new Problem(
            Start, 42, [new("house")],
            [
                new("heat", "house", BenchUse.Heat, 2 * spaces, 60, 100), new("warm", "house", BenchUse.Warm, 4 + random.Below(3), 60, 100),
                new("cool", "house", BenchUse.Cool, 3 + random.Below(3), 60, 100),
            ],
            [new("a", "heat", 1, spaces, [65, 70, 75]), new("b", "heat", 1 + spaces, spaces, [65, 70, 75])],
            6 + random.Below(5), crops,
            [.. Enumerable.Range(1, 3).Select(number => Batch(number, crops[random.Below(3)].Id, random))],
            Prices.Usual with { Split = 1_000_000, SetpointChange = 50, UnplacedTray = 400 });
    }

    private static Batch Batch(int number, string crop, SplitMix random)
    {
        var due = Start.AddDays(25 + random.Below(8));
        return new Batch(
            number.ToString(CultureInfo.InvariantCulture), crop, 1 + random.Below(3), due, Earliest: due.AddDays(-1), Latest: due, LastLate: due.AddDays(1));
    }
}
