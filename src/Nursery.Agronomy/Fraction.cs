namespace Nursery.Agronomy;

/// <summary>A part of a whole, 0 to 1.</summary>
public readonly record struct Fraction
{
    /// <exception cref="InputOutOfRange">Outside 0 to 1, or no number.</exception>
    public Fraction(double value) => Value = InputOutOfRange.Within(value, 0, 1, "fraction", "");

    /// <summary>0 to 1.</summary>
    public double Value { get; }

    public double Percent => Value * 100;

    public static Fraction FromPercent(double percent) => new(InputOutOfRange.Within(percent, 0, 100, "percent", "%") / 100);
}
