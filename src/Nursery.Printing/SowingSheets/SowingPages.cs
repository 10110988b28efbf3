using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.SowingSheets;

/// <summary>Fills pages from the top: a day's title never stands without a line below it, and no line is torn.</summary>
internal sealed class SowingPages(SowingSheetModel model, TextSetter text)
{
    private const double _afterDay = 3 * Mm;

    private readonly SheetSize _sheet = SheetSize.Of(model.Paper);
    private readonly List<List<Action<XGraphics, double>>> _pages = [];
    private readonly List<List<double>> _heights = [];
    private double _left;

    private double Width => _sheet.SignWidth;

    private double Room => _sheet.FullHeight - 2 * Foot.Line - 3 * Mm;

    public void Draw(PdfDocument document)
    {
        TurnPage();
        foreach (var day in model.Days)
        {
            Put(day);
        }

        if (model.Days.Count == 0)
        {
            Put(SignKind.Line, (page, top) => text.Draw(page, "Nothing is to be sown.", SheetSize.Margin, top, SignKind));
        }

        for (var i = 0; i < _pages.Count; i++)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(_sheet.Width);
            page.Height = XUnit.FromPoint(_sheet.Height);
            using var graphics = XGraphics.FromPdfPage(page);
            var top = SheetSize.Margin;
            for (var part = 0; part < _pages[i].Count; part++)
            {
                _pages[i][part](graphics, top);
                top += _heights[i][part];
            }

            FootLines.Draw(graphics, text, model.Imprint, i + 1, _pages.Count, _sheet);
        }
    }

    private void Put(SowingDay day)
    {
        var columns = new SowingColumns(Width);
        var rows = day.Lines.Select(line => new SowingRow(line, columns, text)).ToList();
        var headHeight = DayTitle.Line + SowingColumns.TitleHeight;
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            var begins = i == 0;
            if (_left < row.Height + (begins ? headHeight : 0))
            {
                TurnPage();
                begins = true;
            }

            if (begins)
            {
                PutHead(day, columns, continued: i > 0);
            }

            Put(row.Height, (page, top) => row.Draw(page, SheetSize.Margin, top));
        }

        Put(Math.Min(_afterDay, Math.Max(0, _left)), (_, _) => { });
    }

    private void PutHead(SowingDay day, SowingColumns columns, bool continued)
    {
        var sum = text.OneLine(continued ? "continued" : day.Sum, Detail, Width / 2);
        var title = text.OneLine(day.Title, DayTitle, Width - text.Width(sum, Detail) - 4 * Mm);
        Put(DayTitle.Line, (page, top) =>
        {
            text.Draw(page, title, SheetSize.Margin, top, DayTitle);
            text.DrawRight(page, sum, SheetSize.Margin + Width, top + 3, Detail);
        });
        Put(SowingColumns.TitleHeight, (page, top) => columns.DrawTitles(page, text, SheetSize.Margin, top));
    }

    private void TurnPage()
    {
        _pages.Add([]);
        _heights.Add([]);
        _left = Room;
        var title = text.OneLine($"Sowing sheet, {model.Span}", SheetTitle.Sized(17), Width);
        Put(SheetTitle.Line + 2 * Mm, (page, top) => text.Draw(page, title, SheetSize.Margin, top, SheetTitle.Sized(17)));
        if (_pages.Count > 1)
        {
            return;
        }

        foreach (var line in model.Cautions.SelectMany(caution => text.Wrap(caution, Detail, Width, most: 3)))
        {
            Put(Detail.Line, (page, top) => text.Draw(page, line, SheetSize.Margin, top, Detail));
        }

        Put(2 * Mm, (_, _) => { });
    }

    private void Put(double height, Action<XGraphics, double> draw)
    {
        _pages[^1].Add(draw);
        _heights[^1].Add(height);
        _left -= height;
    }
}
