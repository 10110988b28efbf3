using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Nursery.Printing.Drawing;

/// <summary>A QR code that stands on many pages of a file but is stored in it once.</summary>
internal sealed class QrStamp : IDisposable
{
    private readonly XForm _form;

    public QrStamp(PdfDocument document, Qr qr, double module)
    {
        Side = module * qr.Modules;
        Quiet = 4 * module;
        _form = new XForm(document, new XSize(Side, Side));
        using var graphics = XGraphics.FromForm(_form);
        qr.Draw(graphics, 0, 0, module);
    }

    /// <summary>With the quiet zone.</summary>
    public double Side { get; }

    /// <summary>How far the quiet zone reaches on each side: 4 modules.</summary>
    public double Quiet { get; }

    public void Draw(XGraphics page, double left, double top) => page.DrawImage(_form, left, top, Side, Side);

    public void Dispose() => _form.Dispose();
}
