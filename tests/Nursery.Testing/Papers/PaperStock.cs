namespace Nursery.Testing.Papers;

/// <summary>What a paper is printed on; lengths in points. A plan may lie across.</summary>
/// <param name="Margin">Nothing that is read stands nearer to an edge.</param>
/// <param name="DotsPerInch">At which its codes are looked at: what common printers for it draw, or coarser.</param>
public sealed record PaperStock(double Width, double Height, double Margin, int DotsPerInch)
{
    private const double Mm = 72 / 25.4;

    /// <summary>What is looked at for itself: the whole page, or each tag of a sheet of tags.</summary>
    public IReadOnlyList<LookedAt> Tags { get; init; } = [new(0, 0, Width, Height)];

    /// <summary>ANSI/ASME Y14.1 size A, 8.5 × 11 in.</summary>
    public static PaperStock Letter { get; } = new(8.5 * 72, 11 * 72, 10 * Mm, 300);

    /// <summary>ISO 216, 210 × 297 mm.</summary>
    public static PaperStock A4 { get; } = new(210 * Mm, 297 * Mm, 10 * Mm, 300);

    /// <summary>A roll of 2 × 4 in; common practice, no source. 203 dots an inch: common label printers.</summary>
    public static PaperStock Labels { get; } = new(4 * 72, 2 * 72, 2.5 * Mm, 203);

    /// <summary>A roll of stakes of 1 × 4 in; common practice, no source.</summary>
    public static PaperStock Stakes { get; } = new(4 * 72, 72, 1.2 * Mm, 203);
}
