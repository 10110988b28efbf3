namespace Nursery.Agronomy.Water;

/// <summary>What a bench does to the loss of water.</summary>
/// <param name="IsEdge">Edge rows dry faster.</param>
/// <param name="HasBottomHeat">Mats or pipes below.</param>
/// <param name="Learnt">Factor learnt from dry, damp and wet marks, 0.5 to 2.</param>
public sealed record BenchWater(bool IsEdge = false, bool HasBottomHeat = false, double Learnt = 1)
{
    private const double Least = 0.5;
    private const double Most = 2;

    /// <summary>How far one mark moves the factor.</summary>
    private const double Step = 0.3;

    /// <summary>Takes a mark in: found dry before it was due, the bench dries faster than thought; found wet after, slower.</summary>
    /// <param name="expected">Days since watering ÷ days until dry, 0 or more: 1 is when dryness was expected.</param>
    /// <param name="isDry">Marked dry.</param>
    /// <param name="isWet">Marked wet.</param>
    public BenchWater After(double expected, bool isDry, bool isWet)
    {
        var share = InputOutOfRange.Within(expected, 0, 100, nameof(expected), "");
        var factor = isDry && share < 1
            ? Math.Pow(1 / Math.Max(0.1, share), Step)
            : isWet && share > 0.5 ? Math.Pow(0.5 / Math.Min(4, share), Step) : 1;
        return this with { Learnt = Math.Clamp(Learnt * factor, Least, Most) };
    }
}
