namespace Nursery.Domain.Tests.Tasks.Histories;

/// <summary>Eight zones with daylight saving time in either half of the year, at odd offsets and hours, and by half an hour.</summary>
internal static class Zones
{
    public static readonly string[] All =
    [
        "America/Chicago", "America/St_Johns", "America/Santiago", "Europe/London", "Europe/Berlin", "Africa/Cairo", "Australia/Lord_Howe", "Pacific/Auckland",
    ];
}
