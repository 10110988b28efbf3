using PdfSharp.Drawing;

namespace Nursery.Printing.Sheets;

/// <summary>Something of a height that is drawn whole: (page, left, top).</summary>
internal sealed record SheetPiece(double Height, Action<XGraphics, double, double> Draw)
{
    /// <summary>Pieces below each other as one.</summary>
    public static SheetPiece Together(IReadOnlyList<SheetPiece> pieces) => new(
        pieces.Sum(piece => piece.Height),
        (page, left, top) =>
        {
            foreach (var piece in pieces)
            {
                piece.Draw(page, left, top);
                top += piece.Height;
            }
        });
}
