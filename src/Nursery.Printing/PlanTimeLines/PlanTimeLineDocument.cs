using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using Nursery.Printing.Sheets;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.PlanTimeLines;

/// <summary>A plan on paper that lies across: section by section, eight weeks at most side by side, its rows over as many pages as they need,
/// how full it gets at the foot of each.</summary>
public sealed class PlanTimeLineDocument
{
    private const double _axis = 15;
    private readonly PlanTimeLineModel _model;
    private readonly SheetSize _size;
    private readonly TextSetter _text = new();
    private readonly List<(string Head, TimeLineWindow? Window, List<SheetPiece> Pieces)> _pages = [];
    private readonly IReadOnlyList<string> _subtitle;

    /// <summary>Height left on the last page.</summary>
    private double _left;

    private PlanTimeLineDocument(PlanTimeLineModel model)
    {
        var upright = SheetSize.Of(model.Paper);
        (_model, _size) = (model, new SheetSize(upright.Height, upright.Width));
        _subtitle = _text.Wrap(model.Subtitle, SheetSubtitle, _size.SignWidth, 2);
    }

    private double Head => SheetTitle.Line + _subtitle.Count * SheetSubtitle.Line + Small.Line + 2;

    private double Room => _size.FullHeight - Head - _axis - 2 * Foot.Line - 2 * Mm;

    public static byte[] Render(PlanTimeLineModel model)
    {
        FontCatalog.Use();
        var paper = new PlanTimeLineDocument(model);
        foreach (var section in model.Sections)
        {
            foreach (var window in TimeLineWindow.Of(model.Weeks.Count, paper._size.SignWidth))
                paper.Add(section, window);
        }

        paper.AddNotes();
        using var document = new PdfDocument();
        paper.Draw(document);
        return PdfFile.Save(document, $"{model.Title} – {model.Imprint.Site}", $"Printed {model.Imprint.PrintedAt}");
    }

    private void Add(TimeLineSection section, TimeLineWindow window)
    {
        var rows = section.Rows.ToLookup(row => row.Bars.Any(bar => window.Has(bar.From, bar.To)) || row.Setpoints.Any(set => window.Has(set.From, set.To)));
        if (!rows[true].Any() && section.Loads.All(load => load.Weeks.Skip(window.FirstWeek).Take(window.Weeks).All(taken => taken == 0)))
            return;
        var foot = new List<SheetPiece>();
        if (rows[false].Any())
            foot.Add(Paragraph("Nothing in these weeks: " + string.Join(", ", rows[false].Select(row => row.Name)) + ".", Small, 4));
        foot.Add(TimeLineLoads.Of(section.Loads, window, _text));
        var drawing = new TimeLineRowPieces(window, _text);
        _left = 0;
        foreach (var row in rows[true])
        {
            foreach (var piece in drawing.Of(row, _left, Room))
                Put(section.Name, window, piece);
        }

        Put(section.Name, window, SheetPiece.Together(foot));
    }

    private void AddNotes()
    {
        foreach (var note in _model.Notes.Where(note => note.Lines.Count > 0))
        {
            _left = 0;
            foreach (var line in note.Lines)
                Put(note.Head, null, Paragraph(line, Detail, 6));
        }
    }

    private SheetPiece Paragraph(string words, TextStyle style, int most)
    {
        var lines = _text.Wrap(words, style, _size.SignWidth, most);
        return new SheetPiece(lines.Count * style.Line + 3, (page, left, top) => _text.DrawLines(page, lines, left, top + 2, style));
    }

    private void Put(string head, TimeLineWindow? window, SheetPiece piece)
    {
        if (piece.Height > _left)
        {
            _pages.Add((head, window, []));
            _left = Room;
        }

        _pages[^1].Pieces.Add(piece);
        _left -= piece.Height;
    }

    private void Draw(PdfDocument document)
    {
        if (_pages.Count == 0)
            _pages.Add(("", null, [Paragraph("Nothing is planned, and nothing stands on a bench.", SignKind, 1)]));
        for (var i = 0; i < _pages.Count; i++)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(_size.Width);
            page.Height = XUnit.FromPoint(_size.Height);
            using var graphics = XGraphics.FromPdfPage(page);
            var (head, window, pieces) = _pages[i];
            DrawHead(graphics, head, window);
            SheetPiece.Together(pieces).Draw(graphics, SheetSize.Margin, SheetSize.Margin + Head + _axis);
            FootLines.Draw(graphics, _text, _model.Imprint, i + 1, _pages.Count, _size);
        }
    }

    private void DrawHead(XGraphics page, string section, TimeLineWindow? window)
    {
        var top = SheetSize.Margin;
        var title = section.Length == 0 ? _model.Title : $"{_model.Title}: {section}";
        _text.Draw(page, _text.OneLine(title, SheetTitle, _size.SignWidth), SheetSize.Margin, top, SheetTitle);
        top = _text.DrawLines(page, _subtitle, SheetSize.Margin, top + SheetTitle.Line, SheetSubtitle);
        if (window is null)
            return;
        DrawKey(page, top);
        top = SheetSize.Margin + Head;
        for (var week = 0; week < window.Weeks && window.FirstWeek + week < _model.Weeks.Count; week++)
        {
            var x = SheetSize.Margin + TimeLineWindow.Left + week * window.Week;
            page.DrawLine(Hairline, x, top + 2, x, top + _axis);
            _text.Draw(page, _text.OneLine(_model.Weeks[window.FirstWeek + week], Setting, window.Week - 4), x + 3, top + 2, Setting);
        }
    }

    private void DrawKey(XGraphics page, double top)
    {
        var x = SheetSize.Margin;
        foreach (var (stands, words) in new[] { (false, "not sown yet"), (true, "stays where it is reserved: sown already, or shared trays") })
        {
            TimeLineRowPieces.Sample(page, new XRect(x, top + 1.5, 22, 8), stands);
            _text.Draw(page, words, x + 26, top, Small);
            x += 26 + _text.Width(words, Small) + 12;
        }

        var rest = "Words of a bar: batch, its spaces, its variety where there is room. Weeks begin on Monday.";
        _text.Draw(page, _text.OneLine(rest, Small, SheetSize.Margin + _size.SignWidth - x), x, top, Small);
    }
}
