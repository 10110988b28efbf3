using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.TrayTags;

/// <summary>A stake of 1 × 4 in: the QR code at the head, words along it.</summary>
internal sealed class TrayStake(TextSetter text)
{
    private const double _margin = 1.4 * Mm;
    private const double _end = 3 * Mm;

    public void Draw(XGraphics page, TrayTag tag, XRect area, Imprint imprint, string pageNumber)
    {
        var edge = Math.Floor((area.Height - tag.Qr.Side) / 2 / QrSize.PrinterDot) * QrSize.PrinterDot;
        tag.Qr.Draw(page, area.Left + edge, area.Top + edge);
        var left = area.Left + edge + tag.Qr.Side + 2;
        var width = area.Right - _end - left;
        var top = area.Top + _margin;
        DrawHead(page, tag, left, top, width);
        top += StakeCode.Line;
        if (tag.Shared)
            DrawShares(page, tag, left, top, width);
        else
            DrawBatch(page, tag.Set, left, top, width);
        var footTop = area.Bottom - _margin - StakeFoot.Line;
        text.DrawRight(page, pageNumber, left + width, footTop, StakeFoot);
        text.Draw(page, FootOf(imprint, width - text.Width(pageNumber, StakeFoot) - 4), left, footTop, StakeFoot);
    }

    /// <summary>A long name of the site gives way to when it was printed, and the notice to both.</summary>
    private string FootOf(Imprint imprint, double width)
    {
        var printed = " · printed " + imprint.PrintedAt;
        var site = text.OneLine(imprint.Site, StakeFoot, width - text.Width(printed, StakeFoot));
        return text.OneLine(site + printed + (imprint.Notice is null ? "" : " · " + imprint.Notice), StakeFoot, width);
    }

    private void DrawHead(XGraphics page, TrayTag tag, double left, double top, double width)
    {
        var number = text.OneLine(tag.Number, StakeVariety, width * 0.4);
        var numberLeft = left + width - text.Width(number, StakeVariety);
        text.Draw(page, number, numberLeft, top + 3, StakeVariety);
        var style = text.Fit(tag.Code, StakeCode, numberLeft - left - 4, least: 17);
        text.Draw(page, text.OneLine(tag.Code, style, numberLeft - left - 4), left, top, style);
    }

    /// <returns>Where the stage begins: what stands beside it ends there.</returns>
    private double DrawStage(XGraphics page, StagePattern stage, double right, double top)
    {
        var word = StageSwatch.Word(stage);
        var left = right - text.Width(word, StakeText);
        text.Draw(page, word, left, top + 1, StakeText);
        StageSwatch.Draw(page, new XRect(left - 19, top + 2.5, 16, 6.5), stage);
        return left - 23;
    }

    private void DrawBatch(XGraphics page, TrayTagSet set, double left, double top, double width)
    {
        var batch = set.Shares[0];
        var end = DrawStage(page, set.Stage, left + width, top);
        text.Draw(page, text.OneLine(batch.Variety, StakeVariety, end - left), left, top, StakeVariety);
        top += StakeVariety.Line;
        var lot = batch.Lot is null ? "" : $" · lot {batch.Lot}";
        string[] lines = [batch.Crop + lot, TrayLabel.SownWords(batch), set.Next is null ? "" : "next: " + set.Next];
        text.DrawLines(page, lines.Select(line => text.OneLine(line, StakeText, width)), left, top, StakeText);
    }

    private void DrawShares(XGraphics page, TrayTag tag, double left, double top, double width)
    {
        const int most = 4;
        var shares = tag.Set.Shares;
        var shown = shares.Count <= most ? shares.Count : most - 1;
        var lines = shares.Take(shown).Select(TrayLabel.ShareWords).ToList();
        if (shown < shares.Count)
            lines.Add(FormattableString.Invariant($"+ {shares.Count - shown} more"));
        else if (shown < most && tag.Set.Next is { } next)
            lines.Add("next: " + next);
        var end = DrawStage(page, tag.Set.Stage, left + width, top);
        text.DrawLines(
            page, lines.Select((line, i) => text.OneLine(line, StakeText, i == 0 ? end - left : width)), left, top + 1, StakeText);
    }
}
