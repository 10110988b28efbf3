using Nursery.Printing.Sheets;
using static Nursery.Printing.Sheets.SheetCell;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.CarryLists;

/// <summary>The carry list as a PDF file.</summary>
public static class CarryListDocument
{
    private static readonly SheetColumn[] _columns =
        [new("done", 8 * Mm), new("trays"), new("from", 42 * Mm), new("", 6 * Mm), new("to", 42 * Mm), new("note", 30 * Mm)];

    public static byte[] Render(CarryListModel model) => SheetPages.Render(new SheetModel(
        model.Imprint,
        model.Paper,
        "Carry list",
        model.Span + " · as planned; note what went elsewhere",
        "Nothing is to be carried.",
        _columns,
        [.. model.Days.Select(day => new SheetSection(day.Day, null, [.. day.Lines.Select(line => new[] { Row(line) })]))]));

    private static SheetCell[] Row(CarryLine line) =>
    [
        Tick,
        Of((line.Code, Place, 1), (line.Subject, Small, 2), (line.Trays, Strong, 1)),
        Of((line.From, Place, 1), (line.FromWhere, Small, 3)),
        Of(("to", Small, 1)),
        Of((line.To, Place, 1), (line.ToWhere, Small, 3)),
        line.Note is null ? Field : Of((line.Note, Strong, 3)),
    ];
}
