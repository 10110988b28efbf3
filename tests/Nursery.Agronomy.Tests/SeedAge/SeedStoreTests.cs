using Nursery.Agronomy.SeedAge;
using Xunit;

namespace Nursery.Agronomy.Tests.SeedAge;

public sealed class SeedStoreTests
{
    /// <summary>Ellis &amp; Roberts by hand for onion at 6 % and 15 °C: log₁₀ σ = 6.975 − 3.47 log₁₀ 6 − 0.6 − 0.0963 = 3.5785, σ = 3789 days; 90 % is a
    /// deviate of 1.28155, after 1000 days beyond the first year 1.28155 − 0.26395 = 1.0176: 84.56 %.</summary>
    [Fact]
    public void After_AYearOfTheTest_Ages()
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
