using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.TrayTags;

/// <summary>Tray tags as a PDF file, one a tray. May be called from several threads at once.</summary>
public static class TrayTagsDocument
{
    /// <param name="model">What to print.</param>
    /// <param name="drawn">Told how many tags are drawn so far, after every page.</param>
    /// <param name="cancellation">Stops between two pages.</param>
    /// <exception cref="ArgumentException">The public address is no http or https address, or too long for a code on a tag.</exception>
    public static byte[] Render(TrayTagsModel model, IProgress<int>? drawn = null, CancellationToken cancellation = default)
    {
        FontCatalog.Use();
        using var document = new PdfDocument();
        var text = new TextSetter();
        var area = TagArea.Of(model.Stock);
        var pages = Math.Max(1, (model.Tags + area.PerPage - 1) / area.PerPage);
        using var stamps = new Stamps(document, model);
        var number = 0;
        foreach (var tags in Tags(model, stamps).Chunk(area.PerPage).DefaultIfEmpty([]))
        {
            cancellation.ThrowIfCancellationRequested();
            number++;
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(area.PageWidth);
            page.Height = XUnit.FromPoint(area.PageHeight);
            using var graphics = XGraphics.FromPdfPage(page);
            DrawPage(graphics, text, model, area, tags, FormattableString.Invariant($"Page {number} of {pages}"));
            drawn?.Report(Math.Min(model.Tags, number * area.PerPage));
        }

        return PdfFile.Save(document, $"Tray tags – {model.Imprint.Site}", $"Printed {model.Imprint.PrintedAt}");
    }

    private static IEnumerable<TrayTag> Tags(TrayTagsModel model, Stamps stamps)
    {
        foreach (var set in model.Sets)
        {
            var stamp = stamps.Of(set);
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
