namespace Nursery.Agronomy.Emergence;

/// <summary>Moist growing mix is cooler than the setpoint of its zone, and seed feels the mix.</summary>
public static class MediaOffset
{
    /// <summary>−2 °F with bottom heat, in °C (from memory): what a zone starts with before it is learnt.</summary>
    public const decimal DefaultCelsius = -2m * 5m / 9m;

    /// <summary>What the mix has in a zone.</summary>
    /// <param name="setpoint">Of the zone.</param>
    /// <param name="offsetCelsius">°C to add, −10 to 10; the default where nothing is learnt.</param>
    public static Temperature Of(Temperature setpoint, decimal offsetCelsius = DefaultCelsius) =>
        new(setpoint.Celsius + (decimal)InputOutOfRange.Within((double)offsetCelsius, -10, 10, nameof(offsetCelsius), "°C"));
}
