using NodaTime;
using Nursery.Application.Germination;
using Nursery.Application.Germination.Curves;
using Nursery.Domain.Batches;
using Xunit;

namespace Nursery.Application.Tests.Germination;

public sealed class CurveChartTests
{
    /// <summary>A plot of 100 × 100 whose lower left corner is (20, 110).</summary>
    private static readonly CurveSize Size = new(200, 120, LabelHeight: 10, Left: 20, Right: 80, Top: 10, Bottom: 10);

    /// <summary>By hand: 10 days on 100 units, so day 5 stands at 20 + 50; 20 % up is 20 above 110.</summary>
    [Fact]
    public void Of_OneBatch_PutsEveryCountWhereItBelongs()
    {
        var chart = CurveChart.Of([Batch(1, (5, 20), (10, 60))], [("label", 0.8m)], Size);

        Assert.Equal([new(20, 110), new(70, 90), new(120, 50)], chart.Lines[0].Points);
        Assert.Equal("B-1 60 %", chart.Lines[0].Label);
        Assert.Equal(["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10"], chart.Days.Select(mark => mark.Text));
        Assert.Equal([110, 85, 60, 35, 10], chart.Percents.Select(mark => mark.At));
        Assert.Equal(("label 80 %", 30.0), (chart.Levels[0].Label, chart.Levels[0].At));
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(14, 2)]
    [InlineData(36, 5)]
    [InlineData(100, 10)]
    public void Of_ManyDays_MarksAtMostElevenOfThem(int lastDay, int step)
    {
        var days = CurveChart.Of([Batch(1, (lastDay, 60))], [], Size).Days;

        Assert.InRange(days.Count, 2, 11);
        Assert.Equal(step.ToString(System.Globalization.CultureInfo.InvariantCulture), days[1].Text);
        Assert.True(days[^1].At <= Size.PlotRight + 1e-9);
    }

    [Fact]
    public void Of_LinesEndingTogether_LabelsDoNotOverlapAndKeepTheirOrder()
    {
        var chart = CurveChart.Of([.. Enumerable.Range(1, 8).Select(number => Batch(number, (7, 70 + (number % 3))))], [("label", 0.71m)], Size);

        var places = chart.Lines.Select(line => (End: line.Points[^1].Y, At: line.LabelAt!.Value))
            .Append((End: chart.Levels[0].At, At: chart.Levels[0].LabelAt)).OrderBy(place => place.At).ToList();
        Assert.All(places.Zip(places.Skip(1)), pair => Assert.True(pair.Second.At - pair.First.At >= Size.LabelHeight - 1e-9));
        Assert.All(places.Zip(places.Skip(1)), pair => Assert.True(pair.First.End <= pair.Second.End + 1e-9));
        Assert.True(places[0].At >= Size.LabelHeight / 2 && places[^1].At <= Size.Height);
    }

    [Fact]
    public void Of_MoreLinesThanRoom_NamesTheChosenAndTheExtremes()
    {
        var batches = Enumerable.Range(0, 60).Select(number => Batch(number, (7, number))).ToList();
        foreach (var chosen in batches)
        {
            var chart = CurveChart.Of(batches, [], Size, chosen.Id);

            Assert.NotNull(chart.Lines.Single(line => line.BatchId == chosen.Id).LabelAt);
            Assert.Equal(60 - 11, chart.Unlabeled);
        }

        var plain = CurveChart.Of(batches, [], Size);
        Assert.NotNull(plain.Lines[0].LabelAt);
        Assert.NotNull(plain.Lines[^1].LabelAt);
    }

    private static GerminatedBatch Batch(int number, params (int Day, int Up)[] counts)
    {
        var sown = new LocalDate(2026, 3, 2);
        return new GerminatedBatch
        {
            Id = new Guid(number, 0, 0, new byte[8]),
            Code = $"B-{number}",
            CropCode = "PE",
            CropName = "Pepper",
            VarietyCode = "PE-1",
            VarietyName = "One",
            LotCode = "L-1",
            LabelFraction = 0.8m,
            HouseCode = null,
            HouseName = null,
            SownOn = sown,
            Seeds = 100,
            Emerged = counts[^1].Up,
            Counts = [.. counts.Select(count => new EmergenceCount(sown.PlusDays(count.Day), 100, count.Up))],
        };
    }
}
