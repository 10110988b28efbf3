using Xunit;

namespace Nursery.Agronomy.Tests;

public sealed class EmergenceRateTests
{
    /// <summary>By hand: (90 + 40 + 30) ÷ (100 + 50 + 50) = 0.8. Fractions 0.9, 0.8, 0.6: mean 0.7667,
    /// squared deviations 0.01778 + 0.00111 + 0.02778 = 0.04667, ÷ 2 = 0.02333, root 0.15275.
    /// Standard deviation with n − 1: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.6.</summary>
    [Fact]
    public void Of_ThreeBatches_EqualsTheSumByHand()
    {
        var rate = EmergenceRate.Of([(100, 90), (50, 40), (50, 30)]);

        Assert.Equal((3, 200L, 160m, 0.8m), (rate.Batches, rate.Seeds, rate.Emerged, rate.Fraction));
        Assert.Equal(0.152752523165195, rate.Spread!.Value, 1e-12);
    }

    [Fact]
    public void Of_OneBatch_HasNoSpread() => Assert.Null(EmergenceRate.Of([(72, 60)]).Spread);

    [Fact]
    public void Of_EqualBatches_HaveSpreadZero() => Assert.Equal(0, EmergenceRate.Of([(10, 9), (20, 18)]).Spread!.Value, 1e-12);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(10, -1)]
    [InlineData(10, 11)]
    public void Of_CountOutOfRange_Throws(int seeds, int emerged) =>
        Assert.Throws<ArgumentException>(() => EmergenceRate.Of([(72, 60), (seeds, emerged)]));

    [Fact]
    public void Of_NoBatch_Throws() => Assert.Throws<ArgumentException>(() => EmergenceRate.Of([]));
}
