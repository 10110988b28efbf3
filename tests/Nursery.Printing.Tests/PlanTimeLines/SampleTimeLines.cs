using System.Globalization;
using Nursery.Printing.PlanTimeLines;
using static Nursery.Printing.Tests.Sheets.SampleSheets;

namespace Nursery.Printing.Tests.PlanTimeLines;

/// <summary>Plans of an invented nursery on a time line.</summary>
internal static class SampleTimeLines
{
    /// <summary>Each batch has a bar on heat and one on a bench; none crosses from one page's weeks to the next.</summary>
    public static PlanTimeLineModel Model(Paper paper, int batches, bool wide = false, int weeks = 24, int homeless = 0) => new(
        Sheets.SampleSheets.Imprint,
        paper,
        "Plan in force",
        wide ? string.Join(' ', Enumerable.Repeat(Longest, 3)) : "Sowing days, heat and benches as they are reserved now.",
        [.. Enumerable.Range(0, weeks).Select(week => new DateOnly(2026, 11, 23).AddDays(7 * week).ToString("d MMM yyyy", CultureInfo.InvariantCulture))],
        [
            new TimeLineSection(
                wide ? Longest : "heat zones", [.. Enumerable.Range(0, 9).Select(row => Row(row, batches, weeks, wide, heat: true))],
                [new TimeLineLoad(wide ? Longest : "Heat zones", 240, [.. Enumerable.Range(0, weeks).Select(week => batches == 0 ? 0 : week % 5 == 3 ? 252 : 212)])]),
            new TimeLineSection(
                "benches", [.. Enumerable.Range(0, 11).Select(row => Row(row, batches, weeks, wide, heat: false))],
                [
                    new TimeLineLoad("Warm benches", 600, [.. Enumerable.Range(0, weeks).Select(_ => batches == 0 ? 0 : 431)]),
                    new TimeLineLoad("Hardening off", 90, [.. Enumerable.Range(0, weeks).Select(_ => 0)]),
                ]),
        ],
        [new TimeLineNote("without a place", [.. Enumerable.Range(0, homeless).Select(i => $"{(wide ? LongestCode : $"NO-{100 + i}-P")} {(wide ? Longest : Variety(i))}, 12 trays: no space was found.")])]);

    private static TimeLineRow Row(int row, int batches, int weeks, bool wide, bool heat)
    {
        var rows = heat ? 9 : 11;
        return new TimeLineRow(
            wide ? $"Bench {LongestBench}" : $"{(heat ? "Zone Z" : "Bench ")}{row}",
            wide ? Longest : "bench 1A, 54 spaces",
            [
                .. Enumerable.Range(0, batches).Where(i => i % rows == row).Select(i => new TimeLineBar(
                    wide ? LongestCode : Code(i), $"{1 + 3 * (i % 16)}–{3 + 3 * (i % 16)}", wide ? Longest : Variety(i),
                    From(i, weeks), From(i, weeks) + (heat ? 1 + i % 9 : 14 + i % 21), i % 3 == 0)),
            ],
            heat && batches > row ? [new TimeLineSetpoint(0, 21, wide ? Longest : "80 °F 23 Nov–13 Dec"), new TimeLineSetpoint(21, 7 * weeks, "70 °F from 14 Dec")] : []);
    }

    /// <summary>In the first three weeks of eight.</summary>
    private static int From(int i, int weeks) => 56 * (i % (weeks / 8)) + i % 21;
}
