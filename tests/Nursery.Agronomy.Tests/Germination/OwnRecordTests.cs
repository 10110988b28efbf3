using Nursery.Agronomy.Germination;
using Nursery.Agronomy.SeedAge;
using Xunit;

namespace Nursery.Agronomy.Tests.Germination;

public sealed class OwnRecordTests
{
    /// <summary>By hand: one batch of 100 seeds, 70 up, 85 expected: difference −0.15; a batch counts as 100 ÷ (1 + 99/36) = 26.667 seeds, error
    /// √(0.7 × 0.3 ÷ 26.667) = 0.08874; believed from 0 ± 0.05: −0.15 × (1/0.08874²) ÷ (1/0.08874² + 1/0.05²) = −0.03614.</summary>
    [Fact]
    public void Believed_OneBatchFarBelow_MovesByWhatItKnows()
    {
        var record = OwnRecord.Of([(100, 70, 0.85)]);

        Assert.Equal(-0.15, record.Difference, 1e-12);
        Assert.Equal(Math.Sqrt(0.21 / (100 / (1 + (99d / 36)))), record.Error, 1e-12);
        Assert.Equal(-0.03614, OwnRecord.Believed(0, 0.05, [record]), 1e-5);
        Assert.Equal(-0.05, OwnRecord.Believed(-0.05, 0.05, []), 1e-12);
    }

    [Fact]
    public void Believed_ManyBatchesThatAgree_TakeOver()
    {
        var one = OwnRecord.Believed(0, 0.05, [OwnRecord.Of([(400, 300, 0.9)])]);
        var many = OwnRecord.Believed(0, 0.05, [OwnRecord.Of([.. Enumerable.Repeat((400, 300, 0.9), 60)])]);

        Assert.InRange(one, -0.15, -0.03);
        Assert.InRange(many, -0.15, -0.14);
        Assert.True(OwnRecord.Of([(400, 400, 0.9)]).Error > 0.02);
    }

    /// <summary>Ellis &amp; Roberts by hand for onion at 6 % and 15 °C: log₁₀ σ = 6.975 − 3.47 log₁₀ 6 − 0.6 − 0.0963 = 3.5785, σ = 3789 days; 90 % is a
    /// deviate of 1.28155, after 1000 days beyond the first year 1.28155 − 0.26395 = 1.0176: 84.56 %.</summary>
    [Fact]
    public void SeedStore_AgesFromAYearAfterTheTest()
    {
        var label = new Fraction(0.9);
        Assert.Equal(0.9, SeedStore.After("onion", label, 365).Median);
        Assert.Equal(0.9, SeedStore.After("Onion", label, -20).Low);
        var old = SeedStore.After("Onion", label, 1365);
        Assert.Equal(0.8456, old.Median, 1e-3);
        Assert.True(old.Low < 0.6 && old.High > 0.97);

        // Nothing published of tomato: one probit in 1500 days.
        Assert.Equal(Viability.Deviate(label) - 1, Viability.Deviate(new Fraction(SeedStore.After("Tomato", label, 1865).Median)), 1e-9);
        Assert.InRange(SeedStore.After("Tomato", new Fraction(1), 1865).Median, 0.9, 0.99);
    }
}
