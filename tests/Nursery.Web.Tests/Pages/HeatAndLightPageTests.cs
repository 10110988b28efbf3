using Bunit;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.HeatZones.Readings;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.HeatAndLight;
using Xunit;

namespace Nursery.Web.Tests.Pages;

/// <summary>At 9:00 in Chicago on 2 March 2026.</summary>
public sealed class HeatAndLightPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly OffsetDateTime Nine = new LocalDateTime(2026, 3, 2, 9, 0).WithOffset(Offset.FromHours(-6));

    [Fact]
    public async Task Page_ColdZoneUnderPepper_ShowsCourseBandAndAlarm()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await OnHeatAsync(nursery);
        await nursery.Get<RecordReadings>().HandleAsync(
            [.. Enumerable.Range(0, 24).Select(hours => new ReportedReading("Z80", Nine.PlusHours(-3 - (3 * hours)), 26m)), new("Z80", Nine.PlusHours(-2), 12m)], nursery.Staff);

        var page = pages.Render<HeatAndLightPage>();

        var zone = page.WaitForElement("[aria-label='Zone Z80']");
        Assert.Contains("80 °F set today", zone.TextContent, StringComparison.Ordinal);
        Assert.Contains("53.6 °F read 2 hours ago", zone.TextContent, StringComparison.Ordinal);
        Assert.NotNull(zone.QuerySelector("rect.band"));
        Assert.Contains("53.6 °F to 78.8 °F", zone.QuerySelector("svg")!.GetAttribute("aria-label"), StringComparison.Ordinal);
        var alarm = Assert.Single(page.FindAll(".alarms li"));
        Assert.Contains("Z80 on bench G1: too cold, read 53.6 °F at the lowest; Pepper germinates at", alarm.TextContent, StringComparison.Ordinal);
        Assert.Contains("local electrical code", page.Find(".caution").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_NoReadingAndNothingThere_SaysSo()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Manager);

        var page = pages.Render<HeatAndLightPage>();

        Assert.Contains("where the site lies", page.WaitForElement(".light").TextContent, StringComparison.Ordinal);
        Assert.Contains("no reading yet", page.WaitForElement("[aria-label='Zone Z70']").TextContent, StringComparison.Ordinal);
        Assert.Contains("nothing lies here", page.Markup, StringComparison.Ordinal);
        Assert.Contains("3 heat zones, no alarm", page.Find(".head").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("button.do"));
    }

    [Fact]
    public async Task Page_PlaceAndLampsTold_SaysHoursEnergyAndHow()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await using (var rows = await nursery.DatabaseAsync())
        {
            await rows.Sites.Where(site => site.Id == nursery.At.Site.Id).ExecuteUpdateAsync(site => site
                .SetProperty(row => row.Latitude, 43m).SetProperty(row => row.Longitude, -89m).SetProperty(row => row.KwhPrice, 14.5m));
            await rows.Houses.Where(house => house.Id == nursery.At.House1.Id).ExecuteUpdateAsync(house => house
                .SetProperty(row => row.LampPpfd, 120m).SetProperty(row => row.LampWattsM2, 55m));
            await rows.HeatZones.Where(zone => zone.Id == nursery.At.Zones[0].Id).ExecuteUpdateAsync(zone => zone
                .SetProperty(row => row.OffsetC, -3m).SetProperty(row => row.OffsetLowC, -4m).SetProperty(row => row.OffsetHighC, -2m).SetProperty(row => row.OffsetBatches, 12));
        }

        var page = pages.Render<HeatAndLightPage>();

        Assert.Contains("lamp hours tonight, from a bright to a dull day; 0.0 kWh, USD 0.00", Flat(page.WaitForElement(".light")), StringComparison.Ordinal);
        var zone = page.Find("[aria-label='Zone Z80']");
        Assert.Contains("Its seeds behave like 74.6 °F", Flat(zone), StringComparison.Ordinal);
        Assert.Contains("12 batches", Flat(zone), StringComparison.Ordinal);
        Assert.Contains("Heating takes 2.8 kWh, USD 0.41 a day, on 57.8 % of the time", Flat(zone), StringComparison.Ordinal);
        Assert.Contains("-5.4 °F (-7.2 °F to -3.6 °F)", Flat(zone.QuerySelector("details.how")!), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_NoHouse_SaysWhereToBegin()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await using (var rows = await nursery.DatabaseAsync())
        {
            await rows.Houses.Where(house => house.SiteId == nursery.At.Site.Id)
                .ExecuteUpdateAsync(house => house.SetProperty(row => row.RetiredOn, nursery.Today));
        }

        Assert.Contains("no house yet", pages.Render<HeatAndLightPage>().WaitForElement(".empty").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Import_FileWithAFaultThenWithout_StoresAfterTheButton()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        var page = pages.Render<HeatAndLightPage>();
        page.WaitForElement("[aria-label='Zone Z80']");
        page.FindAll("button").Single(button => button.TextContent == "Import readings").Click();

        Choose(page, "Z80,2026-03-02 08:00,26\nZ99,2026-03-02 08:00,26\n");
        Assert.Equal(["3", "zone", "Z99", "the code of a heat zone"], page.WaitForElement("tbody tr").Children.Select(cell => cell.TextContent.Trim()));

        Choose(page, "Z80,2026-03-02 08:00,26\n");
        page.WaitForElement("button.first").Click();
        page.WaitForAssertion(() => Assert.Contains("78.8 °F read 60 minutes ago", page.Find("[aria-label='Zone Z80']").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.Contains("1 reading of probe.csv imported", page.Find(".said").TextContent, StringComparison.Ordinal));
    }

    private static string Flat(AngleSharp.Dom.IElement element) => System.Text.RegularExpressions.Regex.Replace(element.TextContent, @"\s+", " ");

    private static void Choose(IRenderedComponent<HeatAndLightPage> page, string rows) => page.FindComponent<InputFile>().UploadFiles(
        InputFileContent.CreateFromText("zone,at,temperature_c\n" + rows, "probe.csv"));

    private static async Task OnHeatAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
    }
}
