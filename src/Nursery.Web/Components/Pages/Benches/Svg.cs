using System.Globalization;
using System.Text;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Numbers as SVG reads them, whatever the server's language.</summary>
internal static class Svg
{
    public static string N(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>The same as <see cref="N"/> at the end of a path. A full house writes ten thousand of them, and a format costs more than
    /// everything else there is to a path.</summary>
    public static StringBuilder Number(this StringBuilder path, double value)
    {
        var tenths = (long)Math.Round(Math.Abs(value) * 10, MidpointRounding.AwayFromZero);
        if (value < 0 && tenths > 0)
        {
            path.Append('-');
        }

        path.Append(CultureInfo.InvariantCulture, $"{tenths / 10}");
        return tenths % 10 == 0 ? path : path.Append('.').Append((char)('0' + (tenths % 10)));
    }

    public static string Of(FormattableString text) => FormattableString.Invariant(text);
}
