using System.Globalization;

namespace Nursery.Agronomy;

/// <summary>An input outside the range a formula is valid for: says which, with its unit and its range.</summary>
public sealed class InputOutOfRange(string input, string shown, string unit, string range)
    : ArgumentOutOfRangeException(input, $"{input} is {shown}; allowed: {range}{(unit.Length == 0 ? "" : $" {unit}")}")
{
    public string Input => ParamName!;

    /// <summary>The value as text; not a number stays 'NaN'.</summary>
    public string Shown => shown;

    public string Unit => unit;

    public string Range => range;

    /// <summary>The value, when it lies from low to high; both ends count.</summary>
    /// <exception cref="InputOutOfRange">It does not, or is no number.</exception>
    internal static double Within(double value, double low, double high, string input, string unit) => value >= low && value <= high
        ? value
        : throw Of(value, input, unit, double.IsPositiveInfinity(high) ? $"{Text(low)} or more" : $"{Text(low)} to {Text(high)}");

    /// <summary>The value, when it lies above low and up to high.</summary>
    /// <exception cref="InputOutOfRange">It does not, or is no number.</exception>
    internal static double Above(double value, double low, double high, string input, string unit) => value > low && value <= high
        ? value
        : throw Of(value, input, unit, double.IsPositiveInfinity(high) ? $"above {Text(low)}" : $"above {Text(low)}, to {Text(high)}");

    /// <inheritdoc cref="Within(double, double, double, string, string)"/>
    internal static int Within(int value, int low, int high, string input, string unit) => value >= low && value <= high
        ? value
        : throw new InputOutOfRange(
            input, value.ToString(CultureInfo.InvariantCulture), unit, string.Create(CultureInfo.InvariantCulture, $"{low} to {high}"));

    internal static InputOutOfRange Of(double value, string input, string unit, string range) => new(input, Text(value), unit, range);

    private static string Text(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
