using System.Globalization;
using Nursery.Printing.Sheets;
using static Nursery.Printing.Sheets.SheetCell;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.RoundSheets;

/// <summary>The round sheet as a PDF file: a numbered line a task, boxes to tick, room for counts and for why not.</summary>
public static class RoundSheetDocument
{
    private static readonly SheetColumn[] _columns =
    [
        new("line", 9 * Mm), new("done", 7 * Mm), new("not yet", 9 * Mm), new("task, and why"), new("trays", 42 * Mm),
        new("count", 17 * Mm), new("time, note", 30 * Mm),
    ];

    public static byte[] Render(RoundSheetModel model) => SheetPages.Render(new SheetModel(
        model.Imprint,
        model.Paper,
        "Round",
        $"{model.Day} · {model.Scope}",
        "Nothing is due.",
        _columns,
        [.. model.Stops.Select(stop => new SheetSection(stop.Place, null, [.. stop.Lines.Select(line => new[] { Row(line) })]))],
        "sheet " + model.Number.ToString(CultureInfo.InvariantCulture),
        "done by"));

    private static SheetCell[] Row(RoundSheetLine line) =>
    [
        Of((line.Number.ToString(CultureInfo.InvariantCulture), LineNumber, 1)),
        Tick,
        Tick,
        Of((line.Task, Strong, 2), (line.Why, Small, 6)),
        Of((line.Code, Place, 1), (line.Subject, Small, 2), (line.Where, Small, 2)),
        line.Counts is null ? Empty : Field,
        Field,
    ];
}
