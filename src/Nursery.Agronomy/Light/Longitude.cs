namespace Nursery.Agronomy.Light;

/// <summary>Degrees east, −180 to 180.</summary>
public readonly record struct Longitude
{
    /// <exception cref="InputOutOfRange">Outside its range, or no number.</exception>
    public Longitude(double degrees) => Degrees = InputOutOfRange.Within(degrees, -180, 180, "longitude", "° east");

    public double Degrees { get; }
}
