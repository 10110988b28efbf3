namespace Nursery.Agronomy.Water;

/// <summary>The 1–5 scale of moisture behind dry, damp and wet. Source: moisture levels of the University of Florida's greenhouse training.</summary>
public static class MoistureMark
{
    /// <summary>1 dry and light, 2 dry on top, 3 damp, 4 wet without shine, 5 shining with free water.</summary>
    /// <param name="level">1 to 5.</param>
    /// <exception cref="InputOutOfRange">Outside that.</exception>
    public static bool IsDry(int level) => InputOutOfRange.Within(level, 1, 5, nameof(level), "") <= 2;

    /// <summary>Wet: postpones watering and warns of damping-off.</summary>
    /// <inheritdoc cref="IsDry"/>
    public static bool IsWet(int level) => InputOutOfRange.Within(level, 1, 5, nameof(level), "") >= 4;
}
