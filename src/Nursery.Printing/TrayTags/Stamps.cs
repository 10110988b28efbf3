using Nursery.Printing.Drawing;
using PdfSharp.Pdf;

namespace Nursery.Printing.TrayTags;

/// <summary>The codes of one print, a stamp a tray set.</summary>
internal sealed class Stamps(PdfDocument document, TrayTagsModel model) : IDisposable
{
    private readonly Dictionary<string, QrStamp> _made = [];

    public QrStamp Of(TrayTagSet set)
    {
        if (_made.TryGetValue(set.Code, out var known))
            return known;
        var qr = Qr.Of(TagAddress.Of('T', set.Code, model.PublicAddress));
        return _made[set.Code] = new QrStamp(document, qr, model.Stock == TagStock.Stakes ? QrSize.OnStake(qr) : QrSize.OnLabel(qr));
    }

    public void Dispose()
    {
        foreach (var stamp in _made.Values)
            stamp.Dispose();
    }
}
