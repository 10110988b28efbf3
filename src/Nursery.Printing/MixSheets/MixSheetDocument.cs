using Nursery.Printing.Sheets;
using static Nursery.Printing.Sheets.SheetCell;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.MixSheets;

/// <summary>The mix sheet as a PDF file.</summary>
public static class MixSheetDocument
{
    private static readonly SheetColumn[] _columns = [new("done", 8 * Mm), new("what", 46 * Mm), new("how much", 44 * Mm), new("for")];

    public static byte[] Render(MixSheetModel model) => SheetPages.Render(new SheetModel(
        model.Imprint,
        model.Paper,
        "Mix sheet",
        $"{model.Span} · {model.Cautions}",
        "Nothing is to be sown in these days.",
        _columns,
        [.. model.Days.Select(day => new SheetSection(day.Title, day.Sum, [.. day.Lines.Select(line => new[] { Row(line) })]))],
        MostSubtitleLines: 5));

    private static SheetCell[] Row(MixLine line) =>
    [
        Tick,
        Of((line.What, Place, 2)),
        Of((line.Amount, Place, 2)),
        Of((line.Detail, Small, 3)),
    ];
}
