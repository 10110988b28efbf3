using Nursery.Printing.Drawing;

namespace Nursery.Printing.TrayTags;

/// <summary>The tag of one tray, with its set's code as a stamp.</summary>
internal sealed record TrayTag(TrayTagSet Set, int Tray, QrStamp Qr)
{
    public bool Shared => Set.Shares is not [{ Cells: null }];

    /// <summary>For eyes: the batch's code, which ends in its check sign; the set's for trays that several share.</summary>
    public string Code => Set.Shares is [var only] ? only.Code : Set.Code;

    public string Number => FormattableString.Invariant($"tray {Tray} of {Set.Trays}");
}
