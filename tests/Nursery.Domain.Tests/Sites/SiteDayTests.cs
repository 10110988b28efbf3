using NodaTime;
using Nursery.Domain.Sites;
using Nursery.Domain.Tests.Tasks.Histories;
using Xunit;

namespace Nursery.Domain.Tests.Sites;

public sealed class SiteDayTests
{
    public static TheoryData<string> AllZones { get; } = [.. Zones.All];

    /// <summary>The day of a site is the day the runtime's own time zones (those of the operating system) give: through both changes of
    /// the clock, the leap day of 2024 and the week 53 of 2026.</summary>
    [Theory]
    [MemberData(nameof(AllZones))]
    public void DayOf_EveryQuarterOfAnHourOfThreeYears_IsTheSystemsDay(string zone)
    {
        var site = SiteIn(zone);
        var system = TimeZoneInfo.FindSystemTimeZoneById(zone);
        for (var at = new DateTimeOffset(2024, 1, 1, 0, 0, 0, TimeSpan.Zero); at.Year < 2027; at = at.AddMinutes(15))
        {
            var expected = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(at, system).DateTime);
            if (expected != site.DayOf(Instant.FromDateTimeOffset(at)).ToDateOnly())
            {
                Assert.Fail($"{at:u} is {expected:O} by the system and {site.DayOf(Instant.FromDateTimeOffset(at))} by the site");
            }
        }
    }

    private static Site SiteIn(string zone) => new()
    {
        Id = new Id<Site>(Guid.CreateVersion7()),
        Code = "S1",
        Name = "Test site",
        TimeZone = zone,
        Units = Units.Metric,
        Currency = "EUR",
        MarginDays = 7,
        Paper = PaperSize.A4,
    };
}
