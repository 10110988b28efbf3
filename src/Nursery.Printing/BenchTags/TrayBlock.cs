using Nursery.Printing.Drawing;
using PdfSharp.Drawing;

namespace Nursery.Printing.BenchTags;

/// <summary>The rows that stay together on a page: one batch, or all batches of a shared tray.</summary>
internal sealed class TrayBlock(IReadOnlyList<BatchRow> rows, BatchColumns columns)
{
    public double Height => rows.Sum(row => row.Height);

    public static IReadOnlyList<TrayBlock> Of(BenchTag tag, BatchColumns columns, TextSetter text)
    {
        var trays = new List<List<BenchTagRow>>();
        foreach (var row in tag.Rows)
        {
            if (row.Cells is not null && trays.Count > 0 && trays[^1][^1].Cells is not null && trays[^1][^1].Spaces == row.Spaces)
                trays[^1].Add(row);
            else
                trays.Add([row]);
        }

        return [.. trays.Select(tray => new TrayBlock([.. tray.Select(row => new BatchRow(row, columns, text))], columns))];
    }

    /// <summary>A tray with more batches than a page holds is cut after all.</summary>
    public IEnumerable<TrayBlock> CutTo(double height) =>
        Height <= height ? [this] : rows.Select(row => new TrayBlock([row], columns));

    public double Draw(XGraphics page, double left, double top)
    {
        for (var i = 0; i < rows.Count; i++)
        {
            rows[i].Draw(page, left, top);
            top += rows[i].Height;
            page.DrawLine(i + 1 < rows.Count ? Typography.Dotted : Typography.Hairline, left, top, left + columns.Width, top);
        }

        return top;
    }
}
