using Nursery.Past;

namespace Nursery.Agronomy.Tests;

/// <summary>The nursery invented seasons are made for.</summary>
internal static class PastGround
{
    public static readonly Dictionary<string, string> Names = new() { ["PE"] = "Pepper", ["TO"] = "Tomato", ["LE"] = "Lettuce", ["CA"] = "Cabbage" };

    public static readonly PastNursery Nursery = new(
        [
            new PastBench("G1", PastUse.Heat, 100, [new PastZone("Z1", 1, 50, 27, 27), new PastZone("Z2", 51, 50, 27, 22)]),
            new PastBench("G2", PastUse.Heat, 100, [new PastZone("Z3", 1, 100, 21, 21.2)]),
            new PastBench("W1", PastUse.Warm, 600, []),
            new PastBench("C1", PastUse.Cool, 600, []),
            new PastBench("H1", PastUse.Hardening, 300, []),
        ],
        [
            new PastCrop("PE", 15, 29, 35, 8, 56, 10, 10, 72, 2, 0.7, 14, PastUse.Warm),
            new PastCrop("TO", 10, 29, 35, 6, 42, 8, 10, 72, 2, 0.5, 10, PastUse.Warm),
            new PastCrop("LE", 2, 24, 27, 3, 35, 5, 7, 128, 1, 0.15, null, PastUse.Cool),
            new PastCrop("CA", 4, 29, 38, 4, 42, 6, 7, 72, 1, 0.15, null, PastUse.Cool),
        ],
        [.. new[] { "PE", "TO", "LE", "CA" }.SelectMany(crop => Enumerable.Range(1, 5).Select(number => (FormattableString.Invariant($"{crop}-{number}"), crop)))],
        ["A Customer"],
        [],
        3);

    public static PastZone Zone(string code) => Nursery.Benches.SelectMany(bench => bench.Zones).Single(zone => zone.Code == code);
}
