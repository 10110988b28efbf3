using CsCheck;
using Nursery.Agronomy.Germination;
using Xunit;

namespace Nursery.Agronomy.Tests.Germination;

/// <summary>Against printed results of two packages of seed science: tests/reference/05a and 05b (S40, S41), 05c (S42). Relative 1e-6.</summary>
public sealed class GerminationFiguresTests
{
    [Fact]
    public void Figures_PrintedSamples_Agree()
    {
        var rows = Published.Rows("05a_germination_indices_gcdata.csv");
        Assert.Equal(10, rows.Count);
        foreach (var row in rows)
        {
            var figures = new GerminationFigures(
                (int)row.Number("TotalSeeds"), [.. Enumerable.Range(1, 14).Select(day => new DayCount(day, (int)row.Number($"Day{day:00}")))]);
            Near(row.Number("GermPercent"), figures.FinalFraction.Percent);
            Near(row.Number("t50_Coolbear"), figures.T50Coolbear);
            Near(row.Number("t50_Farooq"), figures.T50Farooq);
            Near(row.Number("MeanGermTime"), figures.MeanTime);
            Near(row.Number("VarGermTime"), figures.TimeVariance);
            Near(row.Number("MeanGermRate"), figures.MeanRate);
            Near(row.Number("CVG"), figures.CoefficientOfVelocity);
            Near(row.Number("GermSynchrony"), figures.SynchronyZ);
            Near(row.Number("GermUncertainty"), figures.UncertaintyU);
            Near(row.Number("GermSpeed_Count"), figures.SpeedIndex);
        }
    }

    [Theory]
    [InlineData("GermSpeed(germ.counts = x, intervals = int)")]
    [InlineData("GermSynchrony(germ.counts = x, intervals = int)")]
    [InlineData("GermUncertainty(germ.counts = x, intervals = int,)")]
    [InlineData("MeanGermRate(germ.counts = x, intervals = int)")]
    [InlineData("CVG(germ.counts = x, intervals = int)")]
    [InlineData("MeanGermTime(germ.counts = x, intervals = int)")]
    [InlineData("VarGermTime(germ.counts = x, intervals = int)")]
    [InlineData("t50(germ.counts = x, intervals = int, method = \"coolbear\")")]
    [InlineData("t50(germ.counts = x, intervals = int, method = \"farooq\")")]
    public void Figures_OfTheExactSample_AgreeToTheLastDigit(string call)
    {
        int[] counts = [0, 0, 0, 0, 4, 17, 10, 7, 1, 0, 1, 0, 0, 0];
        var figures = new GerminationFigures(50, [.. counts.Select((count, index) => new DayCount(index + 1, count))]);
        var expected = Published.Rows("05b_germination_indices_single_sample.csv").Single(row => row["call_with_arguments"] == call).Number("expected");
        var found = call.Split('(')[0] switch
        {
            "GermSpeed" => figures.SpeedIndex,
            "GermSynchrony" => figures.SynchronyZ,
            "GermUncertainty" => figures.UncertaintyU,
            "MeanGermRate" => figures.MeanRate,
            "CVG" => figures.CoefficientOfVelocity,
            "MeanGermTime" => figures.MeanTime,
            "VarGermTime" => figures.TimeVariance,
            _ => call.Contains("coolbear", StringComparison.Ordinal) ? figures.T50Coolbear : figures.T50Farooq,
        };
        Assert.Equal(expected, found!.Value, 1e-12);
    }

    [Fact]
    public void Figures_SecondPackage_Agree()
    {
        var rows = Published.Rows("05c_germination_indices_prosopis.csv");
        Assert.True(rows.Count > 40);
        foreach (var row in rows)
        {
            var figures = new GerminationFigures(
                (int)row.Number("seeds"), [.. Enumerable.Range(0, 11).Select(day => new DayCount(day, (int)row.Number($"D{day}")))]);
            Near(row.Number("grp"), figures.FinalFraction.Percent);
            if (row.Number("grs") > 0)
            {
                Near(row.Number("mgt"), figures.MeanTime);
                Near(row.Number("mgr"), figures.MeanRate);
                Near(row.Number("unc"), figures.UncertaintyU);
            }

            if (row.Number("grs") > 1)
            {
                Near(row.Number("syn"), figures.SynchronyZ);
                Near(row.Number("vgt"), figures.TimeVariance);
            }
        }
    }

    [Fact]
    public void Figures_ThatDoNotExist_AreNullAndNeverAnError()
    {
        var none = new GerminationFigures(50, []);
        Assert.Equal(0, none.FinalFraction.Value);
        Assert.All(
            new[] { none.T50Coolbear, none.T50Farooq, none.MeanTime, none.TimeVariance, none.MeanRate, none.CoefficientOfVelocity, none.SynchronyZ, none.UncertaintyU },
            Assert.Null);
        Assert.Equal(0, none.SpeedIndex);
        var one = new GerminationFigures(50, [new(3, 1)]);
        Assert.Equal((3, null, null, 0), (one.MeanTime, one.TimeVariance, one.SynchronyZ, one.UncertaintyU));
        Assert.Null(new GerminationFigures(50, [new(0, 10)]).SpeedIndex);
    }

    /// <summary>The strict rule: 10 of 20 on the second count is the target of Farooq exactly, so the line runs from the first to the third.</summary>
    [Fact]
    public void T50_TargetMetExactly_RunsBetweenTheNeighbors() =>
        Assert.Equal(2 + (2 * 6d / 16), new GerminationFigures(50, [new(2, 4), new(3, 6), new(4, 10)]).T50Farooq!.Value, 1e-12);

    [Fact]
    public void Figures_AnyCounts_KeepTheirBounds() => Gen.Int[0, 20].Array[1, 20].Sample(counts =>
    {
        var figures = new GerminationFigures(400, [.. counts.Select((count, index) => new DayCount(index + 1, count))]);
        var sum = counts.Sum();
        Assert.InRange(figures.FinalFraction.Value, figures.Wilson95.Low.Value, figures.Wilson95.High.Value);
        Assert.InRange(figures.FinalFraction.Value, figures.ClopperPearson95.Low.Value, figures.ClopperPearson95.High.Value);
        if (sum > 1)
        {
            Assert.InRange(figures.SynchronyZ!.Value, 0, 1);
            Assert.InRange(figures.MeanTime!.Value, 1, counts.Length);
            Assert.InRange(figures.T50Farooq ?? 1, 0, counts.Length);
            Assert.InRange(figures.UncertaintyU!.Value, 0, Math.Log2(counts.Length) + 1e-9);
        }
    });

    [Fact]
    public void Figures_WrongCounts_Say()
    {
        Assert.Equal("seeds", Assert.Throws<InputOutOfRange>(() => new GerminationFigures(0, [])).Input);
        Assert.Equal("germinated", Assert.Throws<InputOutOfRange>(() => new GerminationFigures(10, [new(1, 6), new(2, 5)])).Input);
        Assert.Equal("day", Assert.Throws<InputOutOfRange>(() => new GerminationFigures(10, [new(1, 1), new(1, 1)])).Input);
        Assert.Equal("day", Assert.Throws<InputOutOfRange>(() => new GerminationFigures(10, [new(double.NaN, 1)])).Input);
    }

    private static void Near(double expected, double? found) =>
        Assert.Equal(expected, found!.Value, Math.Max(1e-9, 1e-6 * Math.Abs(expected)));
}
