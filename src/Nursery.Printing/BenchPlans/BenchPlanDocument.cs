using Nursery.Printing.Drawing;
using Nursery.Printing.Faces;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchPlans;

/// <summary>The bench plans of houses as a PDF file, each on one page, across or upright as it comes out larger.</summary>
public static class BenchPlanDocument
{
    public static byte[] Render(BenchPlanModel model)
    {
        var houses = model.Houses;
        FontCatalog.Use();
        using var document = new PdfDocument();
        var text = new TextSetter();
        for (var i = 0; i < Math.Max(1, houses.Count); i++)
        {
            var upright = SheetSize.Of(model.Paper);
            var across = houses.Count > 0 && houses[i].LengthCm > houses[i].WidthCm;
            var size = across ? new SheetSize(upright.Height, upright.Width) : upright;
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(size.Width);
            page.Height = XUnit.FromPoint(size.Height);
            using var graphics = XGraphics.FromPdfPage(page);
            if (houses.Count > 0)
                DrawHouse(graphics, text, houses[i], size);
            else
                text.Draw(graphics, "There is no house to draw.", SheetSize.Margin, SheetSize.Margin, SignKind);
            var foot = new XRect(SheetSize.Margin, size.Height - SheetSize.Margin - 2 * Foot.Line, size.SignWidth, 2 * Foot.Line);
            FootLines.Draw(graphics, text, model.Imprint, $"Page {i + 1} of {Math.Max(1, houses.Count)}", foot, Foot);
        }

        return PdfFile.Save(document, $"Bench plan – {model.Imprint.Site}", $"Printed {model.Imprint.PrintedAt}");
    }

    private static void DrawHouse(XGraphics page, TextSetter text, PlanHouse house, SheetSize size)
    {
        const double gap = 3 * Mm;
        var entries = house.Benches.SelectMany(bench => bench.Trays.Select(trays => (bench.Code, trays)))
            .Select((row, i) => (Number: i + 1, row.Code, row.trays)).ToList();
        var head = SheetTitle.Line + SheetSubtitle.Line + gap;
        var room = size.FullHeight - head - 2 * Foot.Line - gap;
        var key = new PlanKey(entries, size.SignWidth, room, text);
        var plan = new XRect(SheetSize.Margin, SheetSize.Margin + head, size.SignWidth, room - key.Height - gap);
        var drawing = new HouseDrawing(house, plan, text);
        text.Draw(page, text.OneLine(house.Name, SheetTitle, size.SignWidth), SheetSize.Margin, SheetSize.Margin, SheetTitle);
        text.Draw(
            page,
            text.OneLine($"{house.Day} · {house.Free} · scale {drawing.Scale}", SheetSubtitle, size.SignWidth),
            SheetSize.Margin,
            SheetSize.Margin + SheetTitle.Line,
            SheetSubtitle);
        drawing.Draw(page);
        key.Draw(page, SheetSize.Margin, plan.Bottom + gap);
    }
}
