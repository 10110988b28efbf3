using Nursery.Printing.BenchTags;
using Nursery.Printing.Tests.Sheets;
using static Nursery.Printing.Tests.Sheets.SampleSheets;

namespace Nursery.Printing.Tests.BenchTags;


/// <summary>Models of an invented nursery.</summary>
internal static class SampleTags
{
    public static BenchTagsModel Model(Paper paper, IReadOnlyList<BenchTag> tags, string? address = Address) =>
        new(new Imprint("Kestrel Beck Nursery", "24 November 2026, 14:05", "Invented demo data"), address, paper, tags);

    public static BenchTag Bench(string code, int rows = 3, int zones = 1) => new(
        code,
        $"Bench {code}",
        "House 2",
        zones > 0 ? "germination" : "growing, warm",
        60,
        [.. Enumerable.Range(1, zones).Select(i => new ZoneLine($"{code}-{i}", $"{30 * i - 29}–{30 * i}", $"{85 - 5 * i} °F"))],
        [.. Enumerable.Range(0, rows).Select(i => Row(code, i))]);

    public static BenchTagRow Row(string bench, int index) => new(
        $"PE-{100 + index}-{(char)('A' + index % 26)}",
        _varieties[index % _varieties.Length],
        _crops[index % _crops.Length],
        index % 6 == 5 ? null : $"L-{bench}-{442 + index}",
        index % 6 == 5 ? null : $"{1 + index % 28} March 2027",
        1 + index % 12,
        $"{3 * index + 1}–{3 * index + 3}",
        (StagePattern)((index + 1) % 6),
        index % 4 == 3 ? null : "move off heat 14 March, or when half of the cells are up");

    public static BenchTag Shared(string code) => Bench(code, rows: 2) with
    {
        Rows =
        [
            Row(code, 0),
            .. Enumerable.Range(1, 4).Select(i => Row(code, i) with { Trays = 1, Spaces = "40", Cells = $"cell rows {3 * i - 2}–{3 * i}" }),
        ],
    };

    /// <summary>Every text as long as people make it.</summary>
    public static BenchTag Wide(string code) => new(
        code,
        Longest,
        Longest,
        Longest,
        1000,
        [new ZoneLine(Longest, Longest, Longest), new ZoneLine("Z2", "31–60", "75 °F")],
        [
            new BenchTagRow(SampleSheets.LongestCode, Longest, Longest, SampleSheets.LongestLot, "30 September 2027", 1234, Longest, StagePattern.HardeningOff, Longest, Longest),
            Row(code, 1) with { Variety = new string('W', 100), NextStep = new string('M', 100) },
        ]);

    private static readonly string[] _varieties =
        ["‘Inkwell’", "‘Żółty Łan’", "‘Señor Peñasco’", "‘Crème Brûlée’", "‘Müller’s Early × Beck’", "‘Slow Lantern of the Upper Beckside Terraces, Late Red’"];

    private static readonly string[] _crops = ["Pepper", "Eggplant", "Tomato", "Basil", "Cabbage", "Lettuce"];
}
