using System.Globalization;
using Nursery.Printing.BenchPlans;
using Nursery.Printing.BenchTags;
using Nursery.Printing.CarryLists;
using Nursery.Printing.GerminationReports;
using Nursery.Printing.MixSheets;
using Nursery.Printing.PatchSheets;
using Nursery.Printing.PickLists;
using Nursery.Printing.PlanTimeLines;
using Nursery.Printing.RoundSheets;
using Nursery.Printing.SowingSheets;
using Nursery.Printing.Tests.BenchTags;
using Nursery.Printing.Tests.GerminationReports;
using Nursery.Printing.Tests.PlanTimeLines;
using Nursery.Printing.Tests.Sheets;
using Nursery.Printing.Tests.SowingSheets;
using Nursery.Printing.TrayTags;
using Nursery.Testing.Papers;
using static Nursery.Printing.Tests.Sheets.SampleSheets;

namespace Nursery.Printing.Tests.EveryPaper;

/// <summary>Every paper on everything it is printed on: empty, with one item, with 1,000, with the longest names the setup takes, with shared trays.</summary>
internal static class PaperCases
{
    private const string TagHost = "HTTPS://KESTREL-BECK.EXAMPLE/";

    private static readonly (Paper Paper, PaperStock Stock)[] _sheets = [(Paper.Letter, PaperStock.Letter), (Paper.A4, PaperStock.A4)];

    private static readonly (TagStock On, PaperStock Stock)[] _tagStocks =
    [
        (TagStock.Letter, TenOn(TagStock.Letter, PaperStock.Letter)), (TagStock.A4, TenOn(TagStock.A4, PaperStock.A4)), (TagStock.Labels, PaperStock.Labels), (TagStock.Stakes, PaperStock.Stakes),
    ];

    public static IReadOnlyDictionary<string, PaperCase> All { get; } = Sheets().Concat(SignsOfBenches()).Concat(TagsOfTrays()).ToDictionary();

    private static IEnumerable<KeyValuePair<string, PaperCase>> Sheets() =>
        from sheet in _sheets
        from one in new[]
        {
            Case("sowing sheet, none", () => Sowing(sheet.Paper, 0), ("Nothing is to be sown", 1)),
            Case("sowing sheet, one", () => Sowing(sheet.Paper, 1), ("PE-0-K", 1), ("lot L-0442, treated", 1)),
            Case("sowing sheet, 1,000", () => Sowing(sheet.Paper, 1000), [.. Each(1000, i => SowingSheetDocumentTests.Line(i).Code)]),
            Case("sowing sheet, longest", () => SowingSheetDocument.Render(SowingSheetDocumentTests.Wide(sheet.Paper)), (LongestCode, 2), ("256,000,000", 2), ("no lot yet", 1)),
            Case("round sheet, none", () => RoundSheetDocument.Render(Round(sheet.Paper, 0)), ("Nothing is due.", 1)),
            Case("round sheet, one", () => RoundSheetDocument.Render(Round(sheet.Paper, 1)), (Code(0), 1), ("sheet 412", 1)),
            Case("round sheet, 1,000", () => RoundSheetDocument.Render(Round(sheet.Paper, 1000)), [.. Each(1000, Code)]),
            Case("round sheet, longest", () => RoundSheetDocument.Render(Round(sheet.Paper, 20, wide: true)), (LongestCode, 20)),
            Case("carry list, none", () => CarryListDocument.Render(Carry(sheet.Paper, 0)), ("Nothing is to be carried.", 1)),
            Case("carry list, one", () => CarryListDocument.Render(Carry(sheet.Paper, 1)), (Code(0), 1), ("from sowing", 1)),
            Case("carry list, 1,000", () => CarryListDocument.Render(Carry(sheet.Paper, 1000)), [.. Each(1000, Code), ("from sowing", 200)]),
            Case("carry list, longest", () => CarryListDocument.Render(Carry(sheet.Paper, 20, wide: true)), (LongestCode, 20), (LongestBench, 36)),
            Case("pick list, none", () => PickListDocument.Render(Picks(sheet.Paper, 0)), ("No order wants plants then.", 1)),
            Case("pick list, order without a line", () => PickListDocument.Render(Picks(sheet.Paper, 1, lines: 0)), ("picked by, date", 1)),
            Case("pick list, one", () => PickListDocument.Render(Picks(sheet.Paper, 1, lines: 1)), ("Order 1001", 1), ("1,440 plants", 1), ("picked by, date", 1)),
            Case("pick list of an order, 1,000", () => PickListDocument.Render(Picks(sheet.Paper, 1, lines: 1000)), ("1,440 plants", 1000), ("instead, only if short:", 1000), ("picked by, date", 1)),
            Case("pick list of a day, 1,000", () => PickListDocument.Render(Picks(sheet.Paper, 250, lines: 4)), ("1,440 plants", 1000), ("picked by, date", 250)),
            Case("pick list, longest", () => PickListDocument.Render(Picks(sheet.Paper, 2, lines: 8, wide: true)), (LongestCode, 31), ("1,440 plants", 16)),
            Case("patch sheet, none", () => PatchSheetDocument.Render(Patches(sheet.Paper, 0)), ("No batch has blanks", 1)),
            Case("patch sheet, one", () => PatchSheetDocument.Render(Patches(sheet.Paper, 1, lines: 1)), (Code(0), 1), ("blanks of the same tray", 1)),
            Case("patch sheet, 1,000", () => PatchSheetDocument.Render(Patches(sheet.Paper, 100, lines: 10)), ("blanks of the same tray", 1000)),
            Case("patch sheet, longest", () => PatchSheetDocument.Render(Patches(sheet.Paper, 2, lines: 8, wide: true)), ("tray 8", 2)),
            Case("mix sheet, none", () => MixSheetDocument.Render(Mix(sheet.Paper, 0)), ("Nothing is to be sown in these days.", 1)),
            Case("mix sheet, one", () => MixSheetDocument.Render(Mix(sheet.Paper, 1, lines: 1)), ("trays of 72", 1), ("2.7 cu ft (76 L)", 1)),
            Case("mix sheet, 1,000", () => MixSheetDocument.Render(Mix(sheet.Paper, 100, lines: 10)), ("trays of 72", 1000), ("0.5 cu ft (14 L)", 1000)),
            Case("mix sheet, longest", () => MixSheetDocument.Render(Mix(sheet.Paper, 2, lines: 6, wide: true)), ("Zwölfblättrige-Winterharte-Riesen-Schlangengurke", 12)),
            Case("bench plan, none", () => BenchPlanDocument.Render(Plan(sheet.Paper, houses: 0)), ("There is no house to draw.", 1)),
            Case("bench plan, no bench", () => BenchPlanDocument.Render(Plan(sheet.Paper, benches: 0)), ("House 1", 1)),
            Case("bench plan, one", () => BenchPlanDocument.Render(Plan(sheet.Paper, benches: 1, sets: 1)), ("1A 1–7", 1), ("7 trays", 1)),
            Case("bench plan, 1,000", () => BenchPlanDocument.Render(Plan(sheet.Paper, benches: 125)), ("more: see the bench tags", 1)),
            Case("bench plan, longest", () => BenchPlanDocument.Render(Plan(sheet.Paper, benches: 2, sets: 2, wide: true)), (LongestBench, 6)),
            Case("plan time line, none", () => TimeLine(sheet.Paper, 0), ("Nothing is planned", 1)),
            Case("plan time line, one", () => TimeLine(sheet.Paper, 1), (Code(0) + "1–3", 2), ("80 °F 23 Nov–13 Dec", 1), ("212 of 240", 19), ("252 of 240: over", 5)),
            Case("plan time line, 3,000", () => TimeLine(sheet.Paper, 3000, homeless: 40), [.. Each(3000, i => $"{Code(i)}{1 + 3 * (i % 16)}–{3 + 3 * (i % 16)}").Select(each => (each.Words, 2)), ("NO-139-P", 1)]),
            Case("plan time line, longest", () => TimeLine(sheet.Paper, 40, wide: true, homeless: 3), (LongestCode, 83), ("GERMINATION-BENCH-12", 60)),
            Case("germination, none", () => Germination(sheet.Paper, 0, 0), ("Germination by variety", 1)),
            Case("germination, one", () => Germination(sheet.Paper, 1, 1), ("126,496", 1), ("published minimum 75 %", 1)),
            Case("germination, 1,000", () => Germination(sheet.Paper, 1000, 60), ("of 1000 rows fit this page.", 1)),
            Case("germination, longest", () => Germination(sheet.Paper, 3, 9, wide: true), ("126,496", 3)),
        }
        select KeyValuePair.Create($"{one.Name}, {sheet.Paper}", new PaperCase(one.Render, sheet.Stock, one.Says, []));

    private static IEnumerable<KeyValuePair<string, PaperCase>> SignsOfBenches() =>
        from stock in _sheets.Append((Paper: Paper.Roll, Stock: PaperStock.Labels))
        from one in new[]
        {
            Case("bench tags, none", () => BenchTagsDocument.Render(SampleTags.Model(stock.Paper, [])), ("No bench to print a tag for.", 1)),
            Case("bench tags, one", () => Signs(stock.Paper, SampleTags.Bench("2A")), ("PE-100-A", 1), ("80 °F", 1)),
            Case("bench tags, 1,000", () => Signs(stock.Paper, [.. Enumerable.Range(0, 1000).Select(Sign)]), [.. Each(1000, Code)]),
            Case("bench tags, longest", () => Signs(stock.Paper, SampleTags.Wide(LongestBench)), (LongestCode, 1)),
            Case("bench tags, shared", () => Signs(stock.Paper, SampleTags.Shared("2D")), ("PE-101-B", 1), ("cell rows 1–3", stock.Paper == Paper.Roll ? 0 : 1)),
            Case("bench tags, of every kind", () => Signs(stock.Paper, [.. Mixed()]), ("shared", stock.Paper == Paper.Roll ? 0 : 4)),
        }
        let codes = one.Name switch
        {
            "bench tags, none" => [],
            "bench tags, 1,000" => Enumerable.Range(0, 1000).Select(i => (Code(i), $"{TagHost}B/{BenchCode(i)}")).ToList(),
            "bench tags, longest" => [(LongestCode, $"{TagHost}B/{LongestBench}")],
            "bench tags, of every kind" => null,
            _ => [("House 2", one.Name == "bench tags, one" ? TagHost + "B/2A" : TagHost + "B/2D")],
        }
        select KeyValuePair.Create($"{one.Name}, {stock.Paper}", new PaperCase(one.Render, stock.Stock, one.Says, codes ?? []));

    private static IEnumerable<KeyValuePair<string, PaperCase>> TagsOfTrays() =>
        from stock in _tagStocks
        from one in new[]
        {
            Case("tray tags, none", () => Stamped(stock.On), ("No tray to print a tag for.", 1)),
            Case("tray tags, one", () => Stamped(stock.On, Set(0, trays: 1)), ("tray 1 of 1", 1)),
            Case("tray tags, 1,000", () => Stamped(stock.On, [.. Enumerable.Range(0, 100).Select(i => Set(i, trays: 10))]), [.. Each(100, Code).Select(each => (each.Words, 10)), ("tray 7 of 10", 100)]),
            Case("tray tags, longest", () => Stamped(stock.On, Wide() with { Trays = 2 }), (LongestCode, 2)),
            Case("tray tags, shared", () => Stamped(stock.On, Shared(3)), [.. Enumerable.Range(0, 4).Select(k => ($"cell rows {3 * k + 1}–{3 * k + 3} · {Code(503 + k)}", 1))]),
            Case("tray tags, shared by 12", () => Stamped(stock.On, Shared(4, batches: 12), WideShared() with { Trays = 2 }), ("PE-19998-Y-1", 2)),
        }
        let codes = one.Name switch
        {
            "tray tags, none" => [],
            "tray tags, shared" => Tagged("PE-103-D-1"),
            "tray tags, shared by 12" => Tagged("PE-104-E-1", "PE-19998-Y-1"),
            "tray tags, longest" => [(LongestCode, $"{TagHost}T/{LongestCode}-1")],
            _ => Enumerable.Range(0, 100).Select(i => (Code(i), $"{TagHost}T/{Code(i)}-1")).ToArray(),
        }
        select KeyValuePair.Create($"{one.Name}, {stock.On}", new PaperCase(one.Render, stock.Stock, one.Says, codes));

    private static (string Words, string Payload)[] Tagged(params string[] sets) => [.. sets.Select(set => (set, $"{TagHost}T/{set}"))];

    private static PaperStock TenOn(TagStock stock, PaperStock paper)
    {
        var area = TagArea.Of(stock);
        return paper with
        {
            Tags =
            [
                .. Enumerable.Range(0, area.PerPage).Select(i => new LookedAt(
                    area.Left + i % area.Columns * area.Width, area.Top + i / area.Columns * area.Height, area.Width, area.Height)),
            ],
        };
    }

    private static byte[] Stamped(TagStock stock, params TrayTagSet[] sets) => TrayTagsDocument.Render(Tags(stock, sets));

    private static (string Name, Func<byte[]> Render, IReadOnlyCollection<(string Words, int Times)> Says) Case(
        string name, Func<byte[]> render, params (string Words, int Times)[] says) => (name, render, says);

    private static IEnumerable<(string Words, int Times)> Each(int count, Func<int, string> words) => Enumerable.Range(0, count).Select(i => (words(i), 1));

    private static byte[] Sowing(Paper paper, int lines) => SowingSheetDocument.Render(SowingSheetDocumentTests.Model(paper, SowingSheetDocumentTests.Days(lines)));

    private static byte[] TimeLine(Paper paper, int batches, bool wide = false, int homeless = 0) =>
        PlanTimeLineDocument.Render(SampleTimeLines.Model(paper, batches, wide, homeless: homeless));

    private static byte[] Germination(Paper paper, int rows, int lines, bool wide = false) =>
        GerminationReportDocument.Render(GerminationReportDocumentTests.Model(paper, rows, lines, wide));

    private static byte[] Signs(Paper paper, params BenchTag[] tags) => BenchTagsDocument.Render(SampleTags.Model(paper, tags));

    private static string BenchCode(int i) => string.Create(CultureInfo.InvariantCulture, $"X{i:000}Y");

    private static BenchTag Sign(int i) => SampleTags.Bench(BenchCode(i), rows: 0) with
    {
        Rows = [SampleTags.Row("2A", i) with { Code = Code(i) }],
    };

    private static IEnumerable<BenchTag> Mixed() =>
    [
        SampleTags.Bench("2A"), SampleTags.Bench("2B", rows: 0, zones: 0), SampleTags.Bench("2C", rows: 40, zones: 5), SampleTags.Shared("2D"),
        SampleTags.Wide("2E"), SampleTags.Wide(LongestBench), SampleTags.Bench("2F", rows: 7, zones: 2), SampleTags.Bench("2G", zones: 20),
    ];
}
