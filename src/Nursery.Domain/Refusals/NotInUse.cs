using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace Nursery.Domain.Refusals;

/// <summary>A bench or heat zone that is out of use on some of the days asked for.</summary>
/// <param name="benchCode">The bench.</param>
/// <param name="zoneCode">One of its heat zones; null is all of the bench.</param>
/// <param name="from">First day out of use.</param>
/// <param name="until">First day it can be used again.</param>
/// <param name="why">Null when nobody said.</param>
public sealed class NotInUse(string benchCode, string? zoneCode, LocalDate from, LocalDate until, string? why)
    : Refusal(Sentence(benchCode, zoneCode, from, until, why))
{
    public override RefusalKind Kind => RefusalKind.State;

    public override IReadOnlyDictionary<string, object?> Facts => new Dictionary<string, object?>
    {
        ["bench"] = benchCode,
        ["zone"] = zoneCode,
        ["from"] = LocalDatePattern.Iso.Format(from),
        ["until"] = LocalDatePattern.Iso.Format(until),
        ["why"] = why,
    };

    /// <summary>Without a full stop.</summary>
    public static string Sentence(string benchCode, string? zoneCode, LocalDate from, LocalDate until, string? why)
    {
        var what = zoneCode is null ? $"Bench {benchCode}" : $"Heat zone {zoneCode} of bench {benchCode}";
        return $"{what} is out of use from {Day(from)} until {Day(until)}{(why is null ? "" : $": {why}")}";
    }

    private static string Day(LocalDate day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);
}
