using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using NodaTime.Text;

namespace Nursery.Application.Scenario;

/// <summary>Days given from the load day (+35, -12, +0), so that a demo is always in mid-season.</summary>
internal static partial class RelativeDay
{
    public static LocalDate? Resolve(string text, LocalDate loadDay) => Signed().IsMatch(text)
        ? loadDay.PlusDays(int.Parse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture))
        : null;

    /// <summary>The same text with every relative day that ends a line written as a calendar day; lines stay where they are.</summary>
    public static string ResolveLineEnds(string text, LocalDate loadDay) => LineEnd().Replace(
        text, match => "," + LocalDatePattern.Iso.Format(Resolve(match.Groups["days"].Value, loadDay)!.Value));

    [GeneratedRegex(@"^[+-]\d{1,4}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Signed();

    [GeneratedRegex(@",(?<days>[+-]\d{1,4})(?=\r?$)", RegexOptions.CultureInvariant | RegexOptions.Multiline)]
    private static partial Regex LineEnd();
}
