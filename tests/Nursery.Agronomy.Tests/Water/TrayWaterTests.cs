using Nursery.Agronomy.Air;
using Nursery.Agronomy.Water;
using Xunit;

namespace Nursery.Agronomy.Tests.Water;

public sealed class TrayWaterTests
{
    private static readonly Temperature Warm = new(24);
    private static readonly AirState House = AirState.Of(Warm, new Fraction(0.65), new Length(100), AirFormula.Fao56);

    /// <summary>Bedding plant cell after drainage: 59 % water and 12 % air (tests/reference/08c, S72: read), so 71 % pores.</summary>
    [Fact]
    public void Retention_BeddingCell_HoldsThePublishedWater()
    {
        Assert.Equal(0.71, WaterRetention.Bedding.At(0).Value, 1e-12);
        Assert.Equal(0.59, WaterRetention.Bedding.AfterDrainage(Length.FromMillimeters(45)).Value, 0.02);
        Assert.True(WaterRetention.Bedding.AfterDrainage(Length.FromMillimeters(20)).Value > WaterRetention.Bedding.AfterDrainage(Length.FromMillimeters(45)).Value);
    }

    [Fact]
    public void Days_SmallCells_DryFirst() =>
        Assert.True(Days(288, true, SurfaceStage.HalfCanopy, 8) < Days(72, true, SurfaceStage.HalfCanopy, 8));

    [Fact]
    public void Days_CoveredTrays_DryLater()
    {
        Assert.True(Days(72, false, SurfaceStage.Dome, 8) > Days(72, false, SurfaceStage.Vermiculite, 8));
        Assert.True(Days(72, false, SurfaceStage.Vermiculite, 8) > Days(72, false, SurfaceStage.BareWet, 8));
    }

    [Fact]
    public void Days_DullWeather_DryLater() =>
        Assert.True(Days(72, true, SurfaceStage.HalfCanopy, 3) > Days(72, true, SurfaceStage.HalfCanopy, 12));

    [Fact]
    public void Days_EdgeRowsAndBottomHeat_DryEarlier()
    {
        var plain = Days(72, true, SurfaceStage.Cotyledons, 6);
        Assert.True(Of(72, true, SurfaceStage.Cotyledons, 6, new BenchWater(IsEdge: true)).Days.Median < plain);
        Assert.True(Of(72, true, SurfaceStage.Cotyledons, 6, new BenchWater(HasBottomHeat: true)).Days.Median < plain);
    }

    /// <summary>Trade facts, common practice, no source: covered trays on heat want water about every other day, bare ones daily.</summary>
    [Fact]
    public void Days_OnHeat_AreThoseOfTheTrade()
    {
        Assert.InRange(Of(128, false, SurfaceStage.Vermiculite, 2, new BenchWater(HasBottomHeat: true)).Days.Median, 1, 3);
        Assert.InRange(Of(128, false, SurfaceStage.BareWet, 2, new BenchWater(HasBottomHeat: true)).Days.Median, 0.4, 1.5);
    }

    [Fact]
    public void Learnt_Marks_MoveTheFactorWithinBounds()
    {
        var bench = new BenchWater();
        Assert.True(bench.After(0.5, isDry: true, isWet: false).Learnt > 1);
        Assert.True(bench.After(1.5, isDry: false, isWet: true).Learnt < 1);
        Assert.Equal(1, bench.After(1, isDry: false, isWet: false).Learnt);
        Assert.Equal(2, Enumerable.Range(0, 50).Aggregate(bench, (now, _) => now.After(0.2, true, false)).Learnt);
        Assert.Equal(0.5, Enumerable.Range(0, 50).Aggregate(bench, (now, _) => now.After(3, false, true)).Learnt);
        Assert.True(MoistureMark.IsDry(1) && !MoistureMark.IsDry(3) && MoistureMark.IsWet(5));
    }

    [Fact]
    public void Of_OutOfRange_Throws()
    {
        Assert.Throws<InputOutOfRange>(() => Of(300, true, SurfaceStage.BareWet, 5, new BenchWater()));
        Assert.Throws<InputOutOfRange>(() => Of(72, true, SurfaceStage.BareWet, double.NaN, new BenchWater()));
        Assert.Throws<InputOutOfRange>(() => MoistureMark.IsDry(0));
    }

    private static double Days(int cells, bool isUp, SurfaceStage stage, double inside) => Of(cells, isUp, stage, inside, new BenchWater()).Days.Median;

    private static TrayWater Of(int cells, bool isUp, SurfaceStage stage, double inside, BenchWater bench) =>
        TrayWater.Of(cells, isUp, stage, House, Warm, inside, bench);
}
