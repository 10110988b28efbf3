using System.Globalization;
using Nursery.Printing.BenchPlans;
using Nursery.Printing.CarryLists;
using Nursery.Printing.MixSheets;
using Nursery.Printing.PatchSheets;
using Nursery.Printing.PickLists;
using Nursery.Printing.RoundSheets;
using Nursery.Printing.TrayTags;

namespace Nursery.Printing.Tests.Sheets;

/// <summary>Sheets and tags of an invented nursery.</summary>
internal static class SampleSheets
{
    public const string Address = "https://kestrel-beck.example";

    /// <summary>Lists of the setup take names of up to 100 characters.</summary>
    public static readonly string Longest = "Zwölfblättrige Winterharte Riesen-Schlangengurke vom Beckrand der Oberen Terrassen, Spätes Rot, Nachbau"[..100];

    /// <summary>Codes people read to each other: never shortened.</summary>
    public const string LongestCode = "PE-19999-W";

    /// <summary>Lists take codes of benches of up to 20 characters, those of lots of up to 40.</summary>
    public const string LongestBench = "GERMINATION-BENCH-12";

    public const string LongestLot = "L-2026-KESTREL-BECK-UPPER-TERRACES-00442";

    private static readonly string[] _varieties =
        ["‘Inkwell’", "‘Żółty Łan’", "‘Señor Peñasco’", "‘Crème Brûlée’", "‘Müller’s Early × Beck’", "‘Slow Lantern of the Upper Beckside Terraces, Late Red’"];

    private static readonly string[] _tasks = ["Water", "Check for emergence", "Move off heat", "Thin to one a cell"];

    public static Imprint Imprint { get; } = new("Kestrel Beck Nursery", "24 November 2026, 14:05", "Invented demo data");

    public static string Code(int i) => string.Create(CultureInfo.InvariantCulture, $"PE-{100 + i}-{(char)('A' + i % 26)}");

    public static string Variety(int i) => _varieties[i % _varieties.Length];

    public static RoundSheetModel Round(Paper paper, int lines, bool wide = false) => new(
        Imprint,
        paper,
        412,
        "Tuesday, 24 November 2026",
        wide ? Longest : "all houses",
        [
            .. Enumerable.Range(0, lines).Chunk(7).Select((chunk, stop) => new RoundSheetStop(
                wide ? $"{Longest} · {Longest} · {Longest}" : $"House {1 + stop % 3} · bench {1 + stop % 3}{(char)('A' + stop % 26)} · 80 °F heat",
                [
                    .. chunk.Select(i => new RoundSheetLine(
                        i + 1,
                        _tasks[i % 4],
                        wide ? LongestCode : Code(i),
                        wide ? new string('W', 100) : "Pepper " + Variety(i),
                        $"{1 + i % 12} trays, spaces {3 * i + 1}–{3 * i + 3}",
                        wide ? string.Join(' ', Enumerable.Repeat(Longest, 6)) : "Last watered 22 November; the surface must not dry before they are up",
                        i % 4 == 1 ? "seedlings" : null)),
                ])),
        ]);

    public static CarryListModel Carry(Paper paper, int lines, bool wide = false) => new(
        Imprint,
        paper,
        "24 – 30 November 2026",
        [
            .. Enumerable.Range(0, lines).Chunk(9).Select((chunk, day) => new CarryDay(
                $"day {day + 1} of November 2026",
                [
                    .. chunk.Select(i => new CarryLine(
                        wide ? LongestCode : Code(i),
                        wide ? Longest : "Pepper " + Variety(i),
                        $"{1 + i % 12} trays",
                        i % 5 == 0 ? "" : wide ? LongestBench : "2A",
                        i % 5 == 0 ? "from sowing" : wide ? Longest : "House 2, spaces 1–12",
                        wide ? LongestBench : "3C",
                        wide ? Longest : "House 3, spaces 13–24",
                        i % 6 == 1 ? "2 days late" : null)),
                ])),
        ]);

    public static MixSheetModel Mix(Paper paper, int days, int lines = 4, bool wide = false) => new(
        Imprint,
        paper,
        "24 to 30 November 2026",
        wide ? string.Join(' ', Enumerable.Repeat(Longest, 3)) : "Wet the mix before you stir it. Lift with the legs.",
        [
            .. Enumerable.Range(0, days).Select(day => new MixDay(
                wide ? Longest : $"day {day + 1} of November 2026",
                wide ? string.Join(' ', Enumerable.Repeat(Longest, 3)) : "2.7 cu ft (76 L) of loosened mix, 1 bale or bag of 3.8 cu ft (107 L).",
                [
                    .. Enumerable.Range(0, lines).Select(i => new MixLine(
                        wide ? Longest.Replace(' ', '-') : "trays of 72", wide ? Longest : "0.5 cu ft (14 L)", wide ? string.Join(' ', Enumerable.Repeat(Longest, 3)) : "288 cells of 43 mL, published")),
                ])),
        ]);

    public static PatchSheetModel Patches(Paper paper, int batches, int lines = 6, bool wide = false) => new(
        Imprint,
        paper,
        "Tuesday, 24 November 2026",
        [
            .. Enumerable.Range(0, batches).Select(batch => new PatchBatch(
                wide ? LongestCode : Code(batch),
                wide ? Longest : "Pepper " + Variety(batch),
                wide ? Longest : "House 2 · bench 2A · spaces 1–12",
                wide ? string.Join(' ', Enumerable.Repeat(Longest, 3)) : "14 moves, about 3 minutes; then 140 plants in 2 trays, 1 tray space freed.",
                batch % 2 == 0 ? "Not counted tray by tray: taken as even." : null,
                [
                    .. Enumerable.Range(1, lines).Select(line => new PatchLine(
                        $"tray {line}", $"{3 * line}", wide ? Longest : "blanks of the same tray", line % 3 == 0 ? $"tray {line} is empty: clear it" : null)),
                ])),
        ]);

    public static PickListModel Picks(Paper paper, int orders, int lines = 3, bool wide = false) => new(
        Imprint,
        paper,
        "24 November 2026",
        [
            .. Enumerable.Range(0, orders).Select(order => new PickOrder(
                wide ? Longest : (1001 + order).ToString(CultureInfo.InvariantCulture),
                wide ? Longest : "Upper Terrace Growers",
                "24 November 2026",
                [.. Enumerable.Range(0, lines).Select(i => Pick(order * lines + i, wide))])),
        ]);

    public static PickLine Pick(int i, bool wide = false) => new(
        wide ? Longest + " " + Longest : "Pepper " + Variety(i),
        "1,440 plants",
        i % 3 == 2 ? "240 have no batch" : null,
        [
            .. Enumerable.Range(0, 1 + i % 3).Select(k => new PickPlace(
                wide ? LongestCode : Code(3 * i + k), wide ? Longest : "Pepper " + Variety(i), "480 plants", "6 trays of 72 and 48 cells",
                wide ? Longest + Longest : "House 2 · bench 2A · spaces 1–12", StagePattern.HardeningOff)),
            new PickPlace(Code(900 + i), "Pepper " + Variety(i + 1), "up to 240 plants", "", "House 3 · bench 3A · spaces 4–9", StagePattern.Ready, Instead: true),
        ]);

    public static TrayTagsModel Tags(TagStock stock, IReadOnlyList<TrayTagSet> sets, string? address = Address) => new(Imprint, address, stock, sets);

    public static TrayTagSet Set(int i, int trays = 3) => new(
        Code(i) + "-1", trays, (StagePattern)(i % 6), "move off heat 14 March",
        [new TrayTagShare(Code(i), Variety(i), "Pepper", i % 6 == 5 ? null : $"L-{442 + i}", i % 6 == 5 ? null : "3 March 2027")]);

    public static TrayTagSet Shared(int i, int batches = 4) => Set(i, trays: 1) with
    {
        Shares = [.. Enumerable.Range(0, batches).Select(k => new TrayTagShare(
            Code(500 + i + k), Variety(k), "Pepper", $"L-{700 + k}", "3 March 2027", $"cell rows {3 * k + 1}–{3 * k + 3}"))],
    };

    public static TrayTagSet Wide() => new(
        LongestCode + "-1", 1234, StagePattern.HardeningOff, Longest, [new TrayTagShare(LongestCode, Longest, Longest, LongestLot, "30 September 2027")]);

    public static TrayTagSet WideShared() => new(
        "PE-19998-Y-1", 1234, StagePattern.GrowingOn, Longest,
        [.. Enumerable.Range(0, 12).Select(_ => new TrayTagShare(LongestCode, Longest, Longest, LongestLot, "30 September 2027", "cell rows 10–12"))]);

    public static BenchPlanModel Plan(Paper paper, int benches = 6, int sets = 8, bool wide = false, int houses = 1) => new(
        Imprint,
        paper,
        [
            .. Enumerable.Range(1, houses).Select(house => new PlanHouse(
                wide ? Longest : $"House {house}", "24 November 2026", "112 of 240 spaces are free", 2400, 900,
                [
                    .. Enumerable.Range(0, benches).Select(i => new PlanBench(
                        wide ? LongestBench : $"{house}{(char)('A' + i)}",
                        120 + i % 2 * 1150, 60 + i / 2 * (800 / ((benches + 1) / 2)), 1000, Math.Min(165, 600 / ((benches + 1) / 2)), 60, 3,
                        i < 2 ? [new PlanZone($"Z{i}1", 1, 30, "80 °F"), new PlanZone($"Z{i}2", 31, 30, "70 °F")] : [],
                        [
                            .. Enumerable.Range(0, sets).Select(k => new PlanTrays(
                                wide ? LongestCode : Code(sets * i + k), wide ? Longest : Variety(k), $"{7 - k % 3} trays",
                                k == 7 ? null : 1 + 7 * k, 7 - k % 3, (StagePattern)(k % 6))),
                        ])),
                ])),
        ]);
}
