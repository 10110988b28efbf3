using Xunit;

namespace Nursery.Agronomy.Tests;

public sealed class TemperatureTests
{
    /// <summary>Fixed points of the two scales (NIST SP 811, B.8): ice, steam, where they meet, and two between.</summary>
    [Theory]
    [InlineData(32, 0)]
    [InlineData(212, 100)]
    [InlineData(-40, -40)]
    [InlineData(77, 25)]
    [InlineData(95, 35)]
    public void FromFahrenheit_FixedPoint_IsExact(int fahrenheit, int celsius)
    {
        Assert.Equal(celsius, Temperature.FromFahrenheit(fahrenheit).Celsius);
        Assert.Equal(fahrenheit, new Temperature(celsius).Fahrenheit);
    }

    [Fact]
    public void Fahrenheit_WholeDegrees_RoundTrip()
    {
        for (var fahrenheit = -40; fahrenheit <= 220; fahrenheit++)
        {
            Assert.Equal(fahrenheit, Temperature.FromFahrenheit(fahrenheit).Fahrenheit, 20);
        }
    }
}
