using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.TrayTags;

/// <summary>A tag of about 2 × 4 in: words at the left, the QR code, tray and stage at the right.</summary>
internal sealed class TrayLabel(TextSetter text)
{
    /// <summary>Labels wander on the roll by about a millimetre, scissors too.</summary>
    public const double Margin = 2.5 * Mm;

    public static double FootHeight => 2 * LabelFoot.Line;

    public void Draw(XGraphics page, TrayTag tag, XRect area, bool footBelow)
    {
        var right = area.Right - Margin;
        var qrLeft = OnDots(area.Left, right - tag.Qr.Side);
        var qrTop = area.Top + Margin;
        tag.Qr.Draw(page, qrLeft, qrTop);
        var bottom = area.Bottom - Margin - (footBelow ? FootHeight : 0);
        DrawStage(page, tag, new XRect(qrLeft + tag.Qr.Quiet, qrTop + tag.Qr.Side, right - qrLeft - tag.Qr.Quiet, bottom - qrTop - tag.Qr.Side));

        double left = area.Left + Margin, width = qrLeft - left, top = area.Top + Margin;
        var style = text.Fit(tag.Code, TrayCode, width, least: 17);
        text.Draw(page, text.OneLine(tag.Code, style, width), left, top, style);
        top += TrayCode.Line + 1;
        top = tag.Shared ? DrawShares(page, tag, left, top, width, bottom - NextHeight) : DrawBatch(page, tag.Set.Shares[0], left, top, width);
        if (tag.Set.Next is { } next)
            text.DrawLines(page, text.Wrap("next: " + next, LabelText, width, most: 2), left, top + 1, LabelText);
    }

    private static double NextHeight => 2 * LabelText.Line + 1;

    /// <summary>On the printer's dots counted from the tag's edge, or the code's modules come out uneven.</summary>
    private static double OnDots(double from, double at) => from + Math.Floor((at - from) / QrSize.PrinterDot) * QrSize.PrinterDot;

    private void DrawStage(XGraphics page, TrayTag tag, XRect area)
    {
        var number = text.Fit(tag.Number, TrayNumber, area.Width, least: 7);
        text.Draw(page, text.OneLine(tag.Number, number, area.Width), area.Left, area.Top - 4, number);
        StageSwatch.Draw(page, new XRect(area.Left, area.Top + 11, 22, 9), tag.Set.Stage);
        text.Draw(page, text.OneLine(StageSwatch.Word(tag.Set.Stage), LabelStage, area.Width - 26), area.Left + 26, area.Top + 10, LabelStage);
    }

    private double DrawBatch(XGraphics page, TrayTagShare batch, double left, double top, double width)
    {
        top = text.DrawLines(page, text.Wrap(batch.Variety, TrayVariety, width, most: 2), left, top, TrayVariety);
        top = text.DrawLines(page, text.Wrap(batch.Lot is null ? batch.Crop : $"{batch.Crop} · lot {batch.Lot}", LabelText, width, most: 1), left, top, LabelText);
        return text.DrawLines(page, [text.OneLine(SownWords(batch), LabelText, width)], left, top, LabelText);
    }

    private double DrawShares(XGraphics page, TrayTag tag, double left, double top, double width, double bottom)
    {
        var lines = (int)((bottom - top) / TrayShare.Line);
        var shown = tag.Set.Shares.Count <= lines ? tag.Set.Shares.Count : lines - 1;
        foreach (var share in tag.Set.Shares.Take(shown))
        {
            text.Draw(page, text.OneLine(ShareWords(share), TrayShare, width), left, top, TrayShare);
            top += TrayShare.Line;
        }

        if (shown == tag.Set.Shares.Count)
            return top;
        text.Draw(page, FormattableString.Invariant($"+ {tag.Set.Shares.Count - shown} more"), left, top, TrayShare);
        return top + TrayShare.Line;
    }

    internal static string SownWords(TrayTagShare batch) => batch.Sown is null ? "not sown yet" : "sown " + batch.Sown;

    internal static string ShareWords(TrayTagShare share) =>
        $"{share.Cells} · {share.Code} · {share.Variety}{(share.Lot is null ? "" : " · lot " + share.Lot)}";
}
