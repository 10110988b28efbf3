using Nursery.Printing.Sheets;
using static Nursery.Printing.Sheets.SheetCell;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.PatchSheets;

/// <summary>The patch sheet as a PDF file.</summary>
public static class PatchSheetDocument
{
    private static readonly SheetColumn[] _columns =
        [new("done", 8 * Mm), new("lift from", 30 * Mm), new("seedlings", 22 * Mm), new("set into", 44 * Mm), new("then")];

    public static byte[] Render(PatchSheetModel model) => SheetPages.Render(new SheetModel(
        model.Imprint,
        model.Paper,
        "Patch sheet",
        model.Day + " · lift while seedlings are small, water before and after",
        "No batch has blanks that its own seedlings could fill.",
        _columns,
        [
            .. model.Batches.Select(batch => new SheetSection(
                $"{batch.Code} {batch.Subject} · {batch.Place}",
                batch.Note is null ? batch.Sum : $"{batch.Sum} {batch.Note}",
                [.. batch.Lines.Select(line => new[] { Row(line) })])),
        ]));

    private static SheetCell[] Row(PatchLine line) =>
    [
        Tick,
        Of((line.From, Strong, 1)),
        Of((line.Seedlings, Place, 1)),
        Of((line.To, Strong, 2)),
        Of((line.Then, Small, 2)),
    ];
}
