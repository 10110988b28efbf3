using System.Globalization;
using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.GerminationReports;

/// <summary>As many rows as the page has room for, and how many are left out.</summary>
internal sealed class ReportTable(GerminationReportModel model, TextSetter text)
{
    private const double _padding = 2;

    /// <summary>Title and width of the figures; the name gets what they leave.</summary>
    private static readonly (string Title, double Width)[] _figures =
    [
        ("batches", 36), ("seeds", 40), ("emerged", 44), ("rate", 40), ("spread", 58), ("half up after", 66), ("against label", 70), ("against minimum", 76),
    ];

    public void Draw(XGraphics page, XRect area)
    {
        var nameWidth = area.Width - _figures.Sum(figure => figure.Width) - 6;
        DrawTitles(page, area);
        var top = area.Top + ColumnTitle.Line + 2;
        var drawn = 0;
        foreach (var row in model.Rows)
        {
            var name = text.Wrap(row.Name, ReportStrong, nameWidth, most: 2);
            var height = 2 * ReportCell.Line + 2 * _padding;
            var last = drawn + 1 == model.Rows.Count;
            if (top + height > area.Bottom - (last ? 0 : ReportCell.Line))
                break;
            text.DrawLines(page, name, area.Left, top + _padding, ReportStrong);
            DrawFigures(page, row, area, top + _padding);
            top += height;
            page.DrawLine(Dotted, area.Left, top, area.Right, top);
            drawn++;
        }

        if (drawn < model.Rows.Count)
        {
            var words = string.Create(CultureInfo.InvariantCulture, $"{drawn} of {model.Rows.Count} rows fit this page. Choose fewer with the filters, or take all of them as CSV.");
            text.Draw(page, text.OneLine(words, ReportCell, area.Width), area.Left, top + 1, ReportCell);
        }
    }

    private void DrawTitles(XGraphics page, XRect area)
    {
        text.Draw(page, model.By, area.Left, area.Top, ColumnTitle);
        var right = area.Right;
        foreach (var (title, width) in _figures.Reverse())
        {
            text.DrawRight(page, title, right, area.Top, ColumnTitle);
            right -= width;
        }

        page.DrawLine(Rule, area.Left, area.Top + ColumnTitle.Line + 1, area.Right, area.Top + ColumnTitle.Line + 1);
    }

    private void DrawFigures(XGraphics page, GerminationReportRow row, XRect area, double top)
    {
        string[][] cells =
        [
            [row.Batches], [row.Seeds], [row.Emerged], [row.Rate], [row.Spread],
            [row.Half.Figure, row.Half.Beside], [row.Label.Figure, row.Label.Beside], [row.Minimum.Figure, row.Minimum.Beside],
        ];
        var right = area.Right;
        for (var i = cells.Length - 1; i >= 0; i--)
        {
            var style = i == 3 ? ReportStrong : ReportCell;
            for (var line = 0; line < cells[i].Length; line++)
                text.DrawRight(page, text.OneLine(cells[i][line], style, _figures[i].Width - 3), right, top + line * style.Line, style);
            right -= _figures[i].Width;
        }
    }
}
