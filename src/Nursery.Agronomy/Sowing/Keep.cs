namespace Nursery.Agronomy.Sowing;

/// <summary>Plants kept in a cell: one, or a clump of so many seedlings that is never thinned (onion, leek, chives, beet, herbs).</summary>
public readonly record struct Keep
{
    /// <param name="low">Fewest that count as filled, 1 to 15.</param>
    /// <param name="high">More than these are thinned, low to 15.</param>
    /// <exception cref="InputOutOfRange">An input outside its range.</exception>
    public Keep(int low, int high)
    {
        Low = InputOutOfRange.Within(low, 1, 15, "keep.low", "plants");
        High = InputOutOfRange.Within(high, low, 15, "keep.high", "plants");
    }

    public static Keep One { get; } = new(1, 1);

    public int Low { get; }

    public int High { get; }
}
