namespace Nursery.Printing.Drawing;

/// <summary>A face, its size and the height of a line, in points.</summary>
internal readonly record struct TextStyle(Face Face, double Size, double Line)
{
    /// <summary>From the top of a line down to its baseline: capitals (0.67–0.70 of the size) stand in the middle of the line.</summary>
    public double Baseline => (Line + 0.68 * Size) / 2;

    public TextStyle Sized(double size) => this with { Size = size };
}
