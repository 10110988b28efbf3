using PdfSharp.Drawing;
using static Nursery.Printing.Typography;

namespace Nursery.Printing.Drawing;

/// <summary>Where signs lie on a sheet: one in full height, or two halves with a cut between them.</summary>
internal sealed record SheetSize(double Width, double Height)
{
    /// <summary>Office printers leave about 5 mm blank; 10 mm also survive a crooked feed.</summary>
    public const double Margin = 10 * Mm;

    private const double _gap = 8 * Mm;

    public double CutAt => Height / 2;

    public double FullHeight => Height - 2 * Margin;

    public double HalfHeight => (FullHeight - _gap) / 2;

    public double SignWidth => Width - 2 * Margin;

    public static SheetSize Of(Paper paper) => paper switch
    {
        Paper.Letter => new(8.5 * 72, 11 * 72),
        Paper.A4 => new(210 * Mm, 297 * Mm),
        _ => throw new ArgumentOutOfRangeException(nameof(paper), paper, "A roll has no sheets."),
    };

    public XRect Place(bool half, bool lower) => new(
        Margin,
        lower ? Margin + HalfHeight + _gap : Margin,
        SignWidth,
        half ? HalfHeight : FullHeight);
}
