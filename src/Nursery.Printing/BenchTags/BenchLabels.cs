using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchTags;

/// <summary>One label of 2 × 4 in per bench, for a roll of synthetic stock.</summary>
internal sealed class BenchLabels(BenchTagsModel model, TextSetter text)
{
    public const double Width = 4 * 72;
    public const double Height = 2 * 72;

    /// <summary>Labels wander on the roll by about a millimetre.</summary>
    public const double Margin = 2.5 * Mm;

    private const double _footHeight = 17;

    public void Draw(PdfDocument document)
    {
        for (var i = 0; i < model.Tags.Count; i++)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(Width);
            page.Height = XUnit.FromPoint(Height);
            using var graphics = XGraphics.FromPdfPage(page);
            DrawLabel(graphics, model.Tags[i]);
            var foot = new XRect(Margin, Height - Margin - 2 * LabelFoot.Line, Width - 2 * Margin, 2 * LabelFoot.Line);
            FootLines.Draw(graphics, text, model.Imprint, $"Page {i + 1} of {model.Tags.Count}", foot, LabelFoot);
        }
    }

    private void DrawLabel(XGraphics page, BenchTag tag)
    {
        var qr = Qr.Of(TagAddress.Of('B', tag.BenchCode, model.PublicAddress));
        var module = QrSize.OnLabel(qr);
        var side = module * qr.Modules;

        // On the printer's dots, or its modules come out uneven.
        var qrLeft = Math.Floor((Width - Margin - side) / QrSize.PrinterDot) * QrSize.PrinterDot;
        var qrTop = Math.Ceiling(Margin / QrSize.PrinterDot) * QrSize.PrinterDot;
        qr.Draw(page, qrLeft, qrTop, module);
        var captionStyle = text.Fit(tag.BenchCode, QrCaption, side, least: 8);
        var caption = text.OneLine(tag.BenchCode, captionStyle, side);
        text.Draw(page, caption, qrLeft + (side - text.Width(caption, captionStyle)) / 2, qrTop + side - 2, captionStyle);

        var width = qrLeft - Margin;
        var y = text.DrawLines(page, text.Wrap(tag.House, LabelHouse, width, most: 1), Margin, Margin, LabelHouse);
        var codeStyle = text.Fit(tag.BenchCode, LabelCode, width, least: 14);
        text.Draw(page, text.OneLine(tag.BenchCode, codeStyle, width), Margin, y, codeStyle);
        y = DrawZones(page, tag, y + LabelCode.Line, width);
        DrawRows(page, tag, y, Height - Margin - _footHeight, width);
    }

    private double DrawZones(XGraphics page, BenchTag tag, double top, double width)
    {
        const int most = 2;
        if (tag.Zones.Count == 0)
        {
            text.Draw(page, text.OneLine($"{tag.Kind} · {tag.Spaces} spaces", LabelText, width), Margin, top, LabelText);
            return top + LabelText.Line;
        }

        foreach (var zone in tag.Zones.Take(most))
        {
            var setpoint = text.OneLine(zone.Setpoint, LabelSetpoint, width / 2);
            text.Draw(page, setpoint, Margin, top, LabelSetpoint);
            var left = Margin + text.Width(setpoint, LabelSetpoint) + 5;
            text.Draw(page, text.OneLine($"zone {zone.Code} · spaces {zone.Spaces}", LabelZone, Margin + width - left), left, top, LabelZone);
            top += LabelSetpoint.Line;
        }

        if (tag.Zones.Count <= most)
            return top;
        text.Draw(page, $"+ {tag.Zones.Count - most} more heat zones", Margin, top, LabelText);
        return top + LabelText.Line;
    }

    private void DrawRows(XGraphics page, BenchTag tag, double top, double bottom, double width)
    {
        if (tag.Rows.Count == 0)
            text.Draw(page, text.OneLine("Nothing stands or is reserved here.", LabelText, width), Margin, top, LabelText);
        var lines = (int)((bottom - top) / LabelText.Line);
        var shown = tag.Rows.Count <= lines ? tag.Rows.Count : Math.Max(0, lines - 1);
        foreach (var row in tag.Rows.Take(shown))
        {
            StageSwatch.Draw(page, new XRect(Margin + 0.5, top + 2, 16, 7), row.Stage);
            var code = text.OneLine(row.Code, LabelBatch, width * 0.35);
            text.Draw(page, code, Margin + 20, top, LabelBatch);
            var left = Margin + 25 + text.Width(code, LabelBatch);
            var stage = StageSwatch.Word(row.Stage);
            var stageLeft = Margin + width - text.Width(stage, LabelStage);
            text.Draw(page, stage, stageLeft, top, LabelStage);
            text.Draw(page, text.OneLine(row.Variety, LabelText, stageLeft - 4 - left), left, top, LabelText);
            top += LabelText.Line;
        }

        if (shown < tag.Rows.Count)
            text.Draw(page, $"+ {tag.Rows.Count - shown} more", Margin, top, LabelText);
    }
}
