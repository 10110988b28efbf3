using static Nursery.Printing.Typography;

namespace Nursery.Printing.Drawing;

/// <summary>How large a code must be for the distance it is read from; lengths in points.</summary>
internal static class QrSize
{
    /// <summary>Read across a path, 60 cm: 1.2 mm a module for a 1080p camera at 3–4 pixels a module (computed).</summary>
    public const double SignModule = 1.2 * Mm;

    /// <summary>Bench signs: at least 60 mm with the quiet zone.</summary>
    public const double SignSide = 60 * Mm;

    /// <summary>A label printer of 203 dots per inch; a module of whole dots stays square and even.</summary>
    public const double PrinterDot = 72.0 / 203;

    /// <summary>Labels: at most 33.5 mm with the quiet zone.</summary>
    public const double LabelSide = 33.5 * Mm;

    /// <summary>Stakes of 1 in: at most 23.5 mm with the quiet zone; up to 40 characters get 0.6 mm a module, read from 30 cm (computed).</summary>
    public const double StakeSide = 23.5 * Mm;

    public static double OnSign(Qr qr) => Math.Max(SignModule, SignSide / qr.Modules);

    public static double OnLabel(Qr qr) => WholeDots(qr, LabelSide);

    public static double OnStake(Qr qr) => WholeDots(qr, StakeSide);

    /// <summary>Four printer dots a module are the least that a worn thermal head still draws apart.</summary>
    private static double WholeDots(Qr qr, double side)
    {
        var dots = (int)Math.Floor(side / qr.Modules / PrinterDot);
        return dots >= 4
            ? dots * PrinterDot
            : throw new ArgumentException($"A code of {qr.Modules} modules gets {dots} printer dots a module on this stock; 4 are needed. Use a shorter public address.");
    }
}
