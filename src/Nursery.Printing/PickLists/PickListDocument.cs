using Nursery.Printing.Drawing;
using Nursery.Printing.Sheets;
using static Nursery.Printing.Sheets.SheetCell;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.PickLists;

/// <summary>The pick list as a PDF file: each order on pages of its own, so that its sheet can go with it.</summary>
public static class PickListDocument
{
    private static readonly SheetColumn[] _columns =
    [
        new("picked", 10 * Mm), new("what"), new("how many", 34 * Mm), new("where it stands", 48 * Mm), new("stage", 23 * Mm), new("taken", 18 * Mm),
    ];

    public static byte[] Render(PickListModel model) => SheetPages.Render(new SheetModel(
        model.Imprint,
        model.Paper,
        "Pick list",
        model.Scope,
        "No order wants plants then.",
        _columns,
        [
            .. model.Orders.Select(order => new SheetSection(
                $"Order {order.Number} · {order.Customer}",
                "wanted " + order.Day,
                [.. order.Lines.Select(Block)],
                ["picked by, date", "checked by", "received by"],
                OnNewPage: true)),
        ]));

    /// <summary>The line with every batch it is taken from: never torn.</summary>
    private static IReadOnlyList<IReadOnlyList<SheetCell>> Block(PickLine line) =>
    [
        [
            Empty,
            Of((line.Subject, Variety, 3)),
            Of((line.Plants, Figure, 2)),
            Of((line.Uncovered, Strong, 2)),
            Empty,
            Empty,
        ],
        .. line.Places.Select(place => (IReadOnlyList<SheetCell>)
        [
            Tick,
            Of((place.Instead ? "instead, only if short:" : null, Small, 1), (place.Code, Place, 1), (place.Variety, Small, 2)),
            Of((place.Plants, Strong, 2), (place.Trays, Small, 2)),
            Of((place.Where, Detail, 3)),
            Of((place.Stage is { } stage ? StageSwatch.Word(stage) : null, Detail, 1)),
            Field,
        ]),
    ];
}
