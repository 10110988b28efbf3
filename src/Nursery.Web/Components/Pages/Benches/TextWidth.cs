namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Widths of map texts, a little more than the browser draws, so that a placed label has room.
/// Shares of the font size, measured in a browser with the faces of fonts.css.</summary>
public static class TextWidth
{
    public const double PlateSize = 14;
    public const double NameSize = 15;

    private const double CodeShare = 0.65;
    private const double TextShare = 0.51;
    private const double NameShare = 0.6;

    public static double OfCode(string text) => text.Length * CodeShare * PlateSize;

    public static double OfText(string text) => text.Length * TextShare * PlateSize;

    public static double OfName(string text) => text.Length * NameShare * NameSize;

    /// <summary>Cut with … to fit; whole when it fits.</summary>
    public static string FitName(string text, double room)
    {
        var letters = Math.Max(2, (int)(room / (NameShare * NameSize)));
        return text.Length <= letters ? text : string.Concat(text.AsSpan(0, letters - 1).TrimEnd(), "…");
    }
}
