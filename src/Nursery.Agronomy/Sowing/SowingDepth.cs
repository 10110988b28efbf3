namespace Nursery.Agronomy.Sowing;

/// <summary>How deep seed goes when no crop table says.</summary>
public static class SowingDepth
{
    /// <summary>Under this seed is tiny and is sown on the surface (common practice, no source).</summary>
    private const double TinyMm = 1;
    private const double Least = 2;

    /// <summary>From memory; the published rule says about twice.</summary>
    private const double Most = 3;

    /// <summary>Two to three times the seed's thickness; 0 for tiny seed and for seed that needs light. Source of twice: Vegetables and Annual
    /// Flowers course, class 3, National Gardening Association (a pea of 0.25 in goes about 0.5 in deep).</summary>
    /// <param name="thickness">0.05 to 50 mm.</param>
    /// <param name="needsLight">Germinates in light.</param>
    /// <exception cref="InputOutOfRange">The thickness is outside its range.</exception>
    public static (Length From, Length To) Of(Length thickness, bool needsLight)
    {
        var millimeters = InputOutOfRange.Within(thickness.Millimeters, 0.05, 50, nameof(thickness), "mm");
        return needsLight || millimeters < TinyMm
            ? default
            : (Length.FromMillimeters(Least * millimeters), Length.FromMillimeters(Most * millimeters));
    }
}
