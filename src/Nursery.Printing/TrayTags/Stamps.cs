using Nursery.Printing.Drawing;
using PdfSharp.Pdf;

namespace Nursery.Printing.TrayTags;

/// <summary>The codes of one print, a stamp a tray set.</summary>
internal sealed class Stamps(PdfDocument document, TrayTagsModel model) : IDisposable
{
    private readonly List<QrStamp> _made = [];

    public QrStamp Of(TrayTagSet set)
    {
        var qr = Qr.Of(TagAddress.Of('T', set.Code, model.PublicAddress));
        var stamp = new QrStamp(document, qr, model.Stock == TagStock.Stakes ? QrSize.OnStake(qr) : QrSize.OnLabel(qr));
        _made.Add(stamp);
        return stamp;
    }

    public void Dispose() => _made.ForEach(stamp => stamp.Dispose());
}
