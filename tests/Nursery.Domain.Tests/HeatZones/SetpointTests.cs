using Nursery.Agronomy;
using Xunit;

namespace Nursery.Domain.Tests.HeatZones;

public sealed class SetpointTests
{
    /// <summary>A thermostat set in whole °F reads the same after it was stored as numeric(5,2) °C.</summary>
    [Fact]
    public void StoredCelsius_EveryWholeFahrenheit_SurvivesTheRoundTrip()
    {
        for (var fahrenheit = 0; fahrenheit <= 120; fahrenheit++)
        {
            var stored = Math.Round(Temperature.FromFahrenheit(fahrenheit).Celsius, 2);
            Assert.Equal(fahrenheit, Math.Round(new Temperature(stored).Fahrenheit));
        }
    }
}
