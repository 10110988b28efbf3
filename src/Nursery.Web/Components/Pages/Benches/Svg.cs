using System.Globalization;

namespace Nursery.Web.Components.Pages.Benches;

/// <summary>Numbers as SVG reads them, whatever the server's language.</summary>
internal static class Svg
{
    public static string N(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    public static string Of(FormattableString text) => FormattableString.Invariant(text);
}
