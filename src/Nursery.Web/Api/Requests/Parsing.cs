using NodaTime;
using NodaTime.Text;

namespace Nursery.Web.Api.Requests;

/// <summary>How values are spelt, in bodies and in addresses alike.</summary>
internal static class Parsing
{
    /// <summary>Far enough for every plan and story of a nursery, near enough for every date a database can hold.</summary>
    private const int FirstYear = 1900;
    private const int LastYear = 2199;

    public const string AllowedDay = "a day of the calendar as YYYY-MM-DD, years 1900–2199";
    public const string AllowedMoment = "a moment as RFC 3339 with offset, such as 2026-03-14T09:30:00-05:00, years 1900–2199";
    public const string AllowedWhole = "a whole number";
    public const string AllowedId = "a UUID such as 0195a3c8-1f2e-7abc-8def-0123456789ab";

    public static LocalDate? Day(string text) =>
        LocalDatePattern.Iso.Parse(text) is { Success: true, Value: { Year: >= FirstYear and <= LastYear } day } ? day : null;

    public static OffsetDateTime? Moment(string text) =>
        OffsetDateTimePattern.Rfc3339.Parse(text) is { Success: true, Value: { Year: >= FirstYear and <= LastYear } moment } ? moment : null;

    /// <summary>Any version of UUID but the nil one, in its usual spelling.</summary>
    public static Guid? Id(string text) => Guid.TryParseExact(text, "D", out var id) && id != Guid.Empty ? id : null;
}
