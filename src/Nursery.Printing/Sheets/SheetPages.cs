using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.Sheets;

/// <summary>Lays a sheet out on pages: nothing is torn, a heading never stands alone at the foot.</summary>
internal sealed class SheetPages
{
    private const double _writeInLine = 50 * Mm;

    private readonly SheetModel _model;
    private readonly SheetSize _size;
    private readonly TextSetter _text = new();
    private readonly SheetPieces _pieces;
    private readonly IReadOnlyList<string> _subtitle;
    private readonly List<List<SheetPiece>> _pages = [[]];
    private double _left;

    private SheetPages(SheetModel model)
    {
        _model = model;
        _size = SheetSize.Of(model.Paper);
        _pieces = new SheetPieces(new SheetColumns(model.Columns, _size.SignWidth), _text);
        _subtitle = _text.Wrap(model.Subtitle, SheetSubtitle, _size.SignWidth - WriteInWidth, most: model.MostSubtitleLines);
        _left = Room;
    }

    private double WriteInWidth => _model.WriteIn is null ? 0 : _text.Width(_model.WriteIn, SheetSubtitle) + _writeInLine + 6 * Mm;

    private double HeadHeight => SheetTitle.Line + _subtitle.Count * SheetSubtitle.Line + 1 * Mm;

    private double Room => _size.FullHeight - HeadHeight - 2 * Foot.Line - 2 * Mm;

    public static byte[] Render(SheetModel model)
    {
        FontCatalog.Use();
        var sheet = new SheetPages(model);
        foreach (var section in model.Sections)
            sheet.Add(section);
        using var document = new PdfDocument();
        sheet.Draw(document);
        return PdfFile.Save(document, $"{model.Title} – {model.Imprint.Site}", $"Printed {model.Imprint.PrintedAt}");
    }

    private void Add(SheetSection section)
    {
        var head = _pieces.Head(section, continued: false);
        var again = _pieces.Head(section, continued: true);
        var body = section.Blocks.SelectMany(block => _pieces.Block(block, Room - again.Height)).ToList();
        if (section.Signatures is { } words)
        {
            var signed = _pieces.Signatures(words);
            if (body.Count > 0 && body[^1].Height + signed.Height <= Room - again.Height)
                body[^1] = SheetPiece.Together([body[^1], signed]);
            else
                body.Add(signed);
        }

        if (section.OnNewPage && _pages[^1].Count > 0)
            NewPage();
        if (head.Height + (body.Count > 0 ? body[0].Height : 0) > _left && _pages[^1].Count > 0)
            NewPage();
        Put(head);
        foreach (var piece in body)
        {
            if (piece.Height > _left)
            {
                NewPage();
                Put(again);
            }

            Put(piece);
        }
    }

    private void NewPage()
    {
        _pages.Add([]);
        _left = Room;
    }

    private void Put(SheetPiece piece)
    {
        _pages[^1].Add(piece);
        _left -= piece.Height;
    }

    private void Draw(PdfDocument document)
    {
        for (var i = 0; i < _pages.Count; i++)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(_size.Width);
            page.Height = XUnit.FromPoint(_size.Height);
            using var graphics = XGraphics.FromPdfPage(page);
            DrawHead(graphics);
            var top = SheetSize.Margin + HeadHeight;
            if (_model.Sections.Count == 0)
                _text.Draw(graphics, _model.WhenEmpty, SheetSize.Margin, top + 3 * Mm, SignKind);
            SheetPiece.Together(_pages[i]).Draw(graphics, SheetSize.Margin, top);
            FootLines.Draw(graphics, _text, _model.Imprint, i + 1, _pages.Count, _size);
        }
    }

    private void DrawHead(XGraphics page)
    {
        var corner = _model.Corner is null ? 0 : _text.Width(_model.Corner, LabelSetpoint.Sized(14)) + 5 * Mm;
        if (_model.Corner is not null)
            _text.DrawRight(page, _model.Corner, SheetSize.Margin + _size.SignWidth, SheetSize.Margin + 6, LabelSetpoint.Sized(14));
        _text.Draw(page, _text.OneLine(_model.Title, SheetTitle, _size.SignWidth - corner), SheetSize.Margin, SheetSize.Margin, SheetTitle);
        _text.DrawLines(page, _subtitle, SheetSize.Margin, SheetSize.Margin + SheetTitle.Line, SheetSubtitle);
        if (_model.WriteIn is { } words)
        {
            var right = SheetSize.Margin + _size.SignWidth;
            var line = SheetSize.Margin + SheetTitle.Line + SheetSubtitle.Line - 1;
            _text.DrawRight(page, words, right - _writeInLine - 1 * Mm, line + 1 - SheetSubtitle.Line, SheetSubtitle);
            page.DrawLine(Hairline, right - _writeInLine, line, right, line);
        }
    }
}
