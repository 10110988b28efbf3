using PdfSharp.Drawing;
using QRCoder;

namespace Nursery.Printing.Drawing;

/// <summary>
/// A QR code (ISO/IEC 18004) as one filled path, sharp at any resolution. The matrix holds the quiet zone of 4 modules.
/// Level Q (a quarter may be lost): drops and torn corners are the rule in a greenhouse.
/// </summary>
internal sealed class Qr
{
    private readonly List<System.Collections.BitArray> _rows;

    private Qr(List<System.Collections.BitArray> rows) => _rows = rows;

    /// <summary>Modules along one side, quiet zone included.</summary>
    public int Modules => _rows.Count;

    public static Qr Of(string text)
    {
        using var data = QRCodeGenerator.GenerateQrCode(text, QRCodeGenerator.ECCLevel.Q);
        return new Qr([.. data.ModuleMatrix]);
    }

    public void Draw(XGraphics page, double x, double y, double module)
    {
        var path = new XGraphicsPath { FillMode = XFillMode.Winding };
        for (var row = 0; row < Modules; row++)
        {
            for (var column = 0; column < Modules; column++)
            {
                var start = column;
                while (column < Modules && _rows[row][column])
                    column++;
                if (column > start)
                    path.AddRectangle(x + start * module, y + row * module, (column - start) * module, module);
            }
        }

        page.DrawPath(Typography.InkBrush, path);
    }
}
