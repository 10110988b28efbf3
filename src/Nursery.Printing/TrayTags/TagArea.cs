using Nursery.Printing.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.TrayTags;

/// <summary>Where tags lie on a page of a stock; lengths in points. Sizes of rolls: common practice, no source.</summary>
internal sealed record TagArea(double PageWidth, double PageHeight, double Left, double Top, double Width, double Height, int Columns, int Rows)
{
    public const int ColumnsOnSheet = 2;
    public const int RowsOnSheet = 5;

    public int PerPage => Columns * Rows;

    public bool IsSheet => PerPage > 1;

    public static double SheetFoot => 2 * Foot.Line + 2 * Mm;

    public static TagArea Of(TagStock stock) => stock switch
    {
        TagStock.Letter => OnSheet(SheetSize.Of(Paper.Letter)),
        TagStock.A4 => OnSheet(SheetSize.Of(Paper.A4)),
        TagStock.Labels => new(4 * 72, 2 * 72, 0, 0, 4 * 72, 2 * 72, 1, 1),
        TagStock.Stakes => new(4 * 72, 72, 0, 0, 4 * 72, 72, 1, 1),
    };

    private static TagArea OnSheet(SheetSize sheet) => new(
        sheet.Width,
        sheet.Height,
        SheetSize.Margin,
        SheetSize.Margin,
        sheet.SignWidth / ColumnsOnSheet,
        (sheet.FullHeight - SheetFoot) / RowsOnSheet,
        ColumnsOnSheet,
        RowsOnSheet);
}
