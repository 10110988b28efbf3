using System.Globalization;
using Nursery.Printing.Drawing;
using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.BenchPlans;

/// <summary>Draws a house to scale: benches with their spaces, trays by stage, heat zones with their plate, codes.</summary>
internal sealed class HouseDrawing(PlanHouse house, XRect area, TextSetter text)
{
    private readonly double _scale = Math.Min(area.Width / house.LengthCm, area.Height / house.WidthCm);
    private readonly PlanLabels _labels = new(area);

    /// <summary>Such as "1:80": paper to house.</summary>
    public string Scale => string.Create(CultureInfo.InvariantCulture, $"1:{Math.Ceiling(10 * Mm / _scale):0}");

    private XRect House => new(
        area.Left + (area.Width - house.LengthCm * _scale) / 2, area.Top, house.LengthCm * _scale, house.WidthCm * _scale);

    public void Draw(XGraphics page)
    {
        page.DrawRectangle(Rule, House);
        var benches = house.Benches.Select(bench => new PlanGeometry(bench, BoxOf(bench))).ToList();
        foreach (var bench in benches)
            DrawBench(page, bench);
        foreach (var bench in benches)
        {
            var places = AroundBench(bench.Box, Size(bench.Bench.Code, PlanBenchCode));
            Label(page, bench.Bench.Code, PlanBenchCode, places.Where(place =>
                !benches.Exists(other => other != bench && PlanLabels.Meet(place, other.Box))));
        }

        foreach (var bench in benches)
        {
            foreach (var zone in bench.Bench.Zones)
            {
                var plate = $"{zone.Code} {zone.Setpoint}";
                Label(page, plate, PlanText, AroundZone(bench.Around(zone.FirstSpace, zone.Spaces), Size(plate, PlanText)), framed: true);
            }
        }

        // Numbered as in the list under the plan: bench by bench.
        var number = 0;
        foreach (var bench in benches)
        {
            foreach (var trays in bench.Bench.Trays)
            {
                number++;
                if (trays.FirstSpace is { } first)
                    LabelTrays(page, bench.Widest(first, trays.Spaces), trays.Code, number);
            }
        }
    }

    private XRect BoxOf(PlanBench bench) => new(
        House.Left + bench.XCm * _scale, House.Top + bench.YCm * _scale, bench.LengthCm * _scale, bench.WidthCm * _scale);

    private static void DrawBench(XGraphics page, PlanGeometry bench)
    {
        foreach (var trays in bench.Bench.Trays.Where(trays => trays.FirstSpace is not null))
        {
            foreach (var space in Enumerable.Range(trays.FirstSpace!.Value, trays.Spaces))
            {
                var tray = bench.Space(space);
                tray.Inflate(-0.6, -0.6);
                StageSwatch.Draw(page, tray, trays.Stage);
            }
        }

        foreach (var zone in bench.Bench.Zones)
            page.DrawRectangle(new XPen(Ink, 2), bench.Around(zone.FirstSpace, zone.Spaces));
        page.DrawRectangle(Rule, bench.Box);
    }

    private void LabelTrays(XGraphics page, XRect stretch, string code, int number)
    {
        var digits = number.ToString(CultureInfo.InvariantCulture);
        if (!Label(page, code, PlanCode, Within(stretch, Size(code, PlanCode))))
            Label(page, digits, PlanCode, Within(stretch, Size(digits, PlanCode)));
    }

    /// <returns>False when there was no room: the list under the plan has it all the same.</returns>
    private bool Label(XGraphics page, string words, TextStyle style, IEnumerable<XRect> places, bool framed = false)
    {
        if (_labels.Choose(places) is not { } place)
            return false;
        page.DrawRectangle(framed ? Hairline : null, XBrushes.White, place);
        text.Draw(page, words, place.Left + 1.5, place.Top, style);
        return true;
    }

    private XSize Size(string words, TextStyle style) => new(text.Width(words, style) + 3, style.Line);

    private static IEnumerable<XRect> Within(XRect stretch, XSize size)
    {
        if (size.Width <= stretch.Width && size.Height <= stretch.Height + 1)
        {
            yield return new XRect(
                stretch.Left + (stretch.Width - size.Width) / 2, stretch.Top + (stretch.Height - size.Height) / 2, size.Width, size.Height);
        }
    }

    private static IEnumerable<XRect> AroundBench(XRect bench, XSize size)
    {
        yield return new XRect(bench.Left - size.Width - 3, bench.Top + (bench.Height - size.Height) / 2, size.Width, size.Height);
        yield return new XRect(bench.Left, bench.Top - size.Height - 1, size.Width, size.Height);
        yield return new XRect(bench.Right + 3, bench.Top + (bench.Height - size.Height) / 2, size.Width, size.Height);
        yield return new XRect(bench.Left, bench.Top, size.Width, size.Height);
        yield return new XRect(bench.Left, bench.Bottom, size.Width, size.Height);
    }

    private static IEnumerable<XRect> AroundZone(XRect zone, XSize size)
    {
        foreach (var left in new[] { zone.Left, zone.Left + (zone.Width - size.Width) / 2, zone.Right - size.Width })
        {
            yield return new XRect(left, zone.Top - size.Height - 1.5, size.Width, size.Height);
            yield return new XRect(left, zone.Bottom + 1.5, size.Width, size.Height);
            yield return new XRect(left, zone.Bottom - size.Height - 2, size.Width, size.Height);
            yield return new XRect(left, zone.Top + 2, size.Width, size.Height);
        }
    }
}
