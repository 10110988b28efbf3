using System.Globalization;
using Nursery.Printing.GerminationReports;
using Nursery.Printing.Tests.BenchTags;
using Nursery.Testing.Papers;
using Xunit;

namespace Nursery.Printing.Tests.GerminationReports;

public class GerminationReportDocumentTests
{
    private const string _longest = "Ornamental flowering cabbage-and-kale mixture ‘Superlatively Long Invented Variety Name Number Seventeen’ of the upper house";

    [Fact]
    public void Render_FewRows_PrintsEveryFigureAndTheCurves()
    {
        using var read = new Readback(GerminationReportDocument.Render(Model(Paper.Letter, 3, 4)));

        foreach (var words in new[]
        {
            "Variety 2", "126,496", "121,230.5", "100.0 %", "± 33.1 points", "13.3 days", "19 of 21 batches", "92.0 %", "26.6 points below", "75 %", "10.4 points above",
            "days after sowing", "100 %", "PE-003-X 78 %", "published minimum 75 %",
        })
        {
            Assert.Contains(Readback.Squeeze(words), read.Letters, StringComparison.Ordinal);
        }

        // Only the longest name is cut, over the curves and in its row after a second line.
        Assert.Equal(2, read.Letters.Count(letter => letter == '…'));

        // Vectors, not a picture: 2 axes, 5 + 11 marks, 4 lines with 3 points each and leaders.
        Assert.Empty(read.Pages[0].GetImages());
        Assert.True(read.Pages[0].Paths.Count > 30, $"{read.Pages[0].Paths.Count} paths");
    }

    [Fact]
    public void Render_MoreRowsThanFit_SaysHowManyAreLeftOut()
    {
        using var read = new Readback(GerminationReportDocument.Render(Model(Paper.Letter, 1000, 3)));

        Assert.Contains("of1000rowsfitthispage.", read.Letters, StringComparison.Ordinal);
        Assert.DoesNotContain("Variety999", read.Letters, StringComparison.Ordinal);
    }

    [Fact]
    public void Render_SameModelTwice_GivesTheSameBytes() => Assert.Equal(
        GerminationReportDocument.Render(Model(Paper.A4, 5, 5)), GerminationReportDocument.Render(Model(Paper.A4, 5, 5)));

    internal static GerminationReportModel Model(Paper paper, int rows, int lines, bool wide = false) => new(
        new Imprint("Kestrel Beck Nursery", "24 November 2026, 14:05", "Invented demo data"),
        paper,
        "sown 1 March 2026 to 31 August 2026 · Pepper · House 2 · lot L-0401 · below 90 % · 27 batches counted",
        "variety",
        [.. Enumerable.Range(1, rows).Select(number => new GerminationReportRow(
            wide || number == 1 ? _longest : string.Create(CultureInfo.InvariantCulture, $"Variety {number}"),
            "24", "126,496", "121,230.5", "100.0 %", "± 33.1 points", ("13.3 days", "19 of 21 batches"), ("92.0 %", "26.6 points below"), ("75 %", "10.4 points above")))],
        lines == 0 ? null : Curves(paper, lines, wide));

    private static PrintedCurves Curves(Paper paper, int lines, bool wide)
    {
        var room = GerminationReportDocument.CurvesSize(paper);
        double right = room.Width - room.Right, bottom = room.Height - room.Bottom;
        var most = (int)(bottom / room.LabelHeight) - 2;
        return new PrintedCurves(
            $"Emergence curves of {lines} batches: {_longest}",
            room.Left,
            room.Top,
            right,
            bottom,
            [.. Enumerable.Range(0, 11).Select(day => (room.Left + day * (right - room.Left) / 10, day.ToString(CultureInfo.InvariantCulture)))],
            [.. Enumerable.Range(0, 5).Select(mark => (bottom - mark * (bottom - room.Top) / 4, (mark * 25).ToString(CultureInfo.InvariantCulture)))],
            [.. Enumerable.Range(0, lines).Select(line => new PrintedCurve(
                string.Create(CultureInfo.InvariantCulture, $"PE-{line:000}-X {75 + line % 20} %"),
                [(room.Left, bottom), (room.Left + 60, bottom - 40), (room.Left + 150 + line, bottom - 90), (right, room.Top + 20 + line)],
                line < most ? room.Top + room.LabelHeight * (line + 0.5) : null))],
            [new PrintedCurve("published minimum 75 %", [(room.Left, room.Top + 40), (right, room.Top + 40)], bottom - room.LabelHeight)]);
    }
}
