namespace Nursery.Agronomy.Light;

/// <summary>Degrees north, −90 to 90.</summary>
public readonly record struct Latitude
{
    /// <exception cref="InputOutOfRange">Outside its range, or no number.</exception>
    public Latitude(double degrees) => Degrees = InputOutOfRange.Within(degrees, -90, 90, "latitude", "° north");

    public double Degrees { get; }

    internal double Radians => Degrees * Math.PI / 180;
}
