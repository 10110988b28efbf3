using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.TrayTags;

/// <summary>A print of tray tags in the making, page by page, so that whoever draws thousands can tell how far it is and stop.</summary>
public sealed class TrayTagsPrint : IDisposable
{
    private readonly TrayTagsModel _model;
    private readonly PdfDocument _document = new();
    private readonly TextSetter _text = new();
    private readonly TagArea _area;
    private readonly Stamps _stamps;
    private readonly IEnumerator<TrayTag[]> _waiting;
    private readonly int _pages;
    private int _page;

    /// <exception cref="ArgumentException">The public address is no http or https address, or too long for a code on a tag.</exception>
    public TrayTagsPrint(TrayTagsModel model)
    {
        FontCatalog.Use();
        _model = model;
        _area = TagArea.Of(model.Stock);
        _stamps = new Stamps(_document, model);
        _waiting = Tags().Chunk(_area.PerPage).DefaultIfEmpty([]).GetEnumerator();
        _pages = Math.Max(1, (model.Tags + _area.PerPage - 1) / _area.PerPage);
    }

    /// <summary>How many tags stand on the pages drawn so far.</summary>
    public int Drawn { get; private set; }

    /// <summary>Draws a page more.</summary>
    /// <returns>False when there is none left.</returns>
    public bool DrawNext()
    {
        if (!_waiting.MoveNext())
            return false;
        var tags = _waiting.Current;
        var page = _document.AddPage();
        page.Width = XUnit.FromPoint(_area.PageWidth);
        page.Height = XUnit.FromPoint(_area.PageHeight);
        using var graphics = XGraphics.FromPdfPage(page);
        _page++;
        DrawPage(graphics, _text, _model, _area, tags, FormattableString.Invariant($"Page {_page} of {_pages}"));
        Drawn += tags.Length;
        return true;
    }

    /// <summary>The pages drawn so far, each numbered as a page of the whole. Nothing can be drawn afterwards.</summary>
    public byte[] Save() => PdfFile.Save(_document, $"Tray tags – {_model.Imprint.Site}", $"Printed {_model.Imprint.PrintedAt}");

    public void Dispose()
    {
        _waiting.Dispose();
        _stamps.Dispose();
        _document.Dispose();
    }

    private IEnumerable<TrayTag> Tags()
    {
        foreach (var set in _model.Sets)
        {
            var stamp = _stamps.Of(set);
            for (var tray = set.Tags.First; tray <= set.Tags.Last; tray++)
                yield return new TrayTag(set, tray, stamp);
        }
    }

    private static void DrawPage(
        XGraphics page, TextSetter text, TrayTagsModel model, TagArea area, TrayTag[] tags, string pageNumber)
    {
        if (tags.Length == 0)
            text.Draw(page, "No tray to print a tag for.", area.Left + TrayLabel.Margin, area.Top + TrayLabel.Margin, LabelText);
        for (var i = 0; i < tags.Length; i++)
        {
            var place = new XRect(
                area.Left + i % area.Columns * area.Width, area.Top + i / area.Columns * area.Height, area.Width, area.Height);
            if (model.Stock == TagStock.Stakes)
                new TrayStake(text).Draw(page, tags[i], place, model.Imprint, pageNumber);
            else
                new TrayLabel(text).Draw(page, tags[i], place, footBelow: !area.IsSheet);
        }

        if (area.IsSheet)
            DrawCuts(page, area);
        if (model.Stock != TagStock.Stakes || tags.Length == 0)
            DrawFoot(page, text, model.Imprint, area, pageNumber);
    }

    private static void DrawFoot(XGraphics page, TextSetter text, Imprint imprint, TagArea area, string pageNumber)
    {
        var style = area.IsSheet ? Foot : LabelFoot;
        var margin = area.IsSheet ? SheetSize.Margin : TrayLabel.Margin;
        var foot = new XRect(margin, area.PageHeight - margin - 2 * style.Line, area.PageWidth - 2 * margin, 2 * style.Line);
        FootLines.Draw(page, text, imprint, pageNumber, foot, style);
    }

    private static void DrawCuts(XGraphics page, TagArea area)
    {
        for (var column = 0; column <= area.Columns; column++)
        {
            var x = area.Left + column * area.Width;
            page.DrawLine(CutLine, x, area.Top, x, area.Top + area.Rows * area.Height);
        }

        for (var row = 0; row <= area.Rows; row++)
        {
            var y = area.Top + row * area.Height;
            page.DrawLine(CutLine, area.Left, y, area.Left + area.Columns * area.Width, y);
        }
    }
}
