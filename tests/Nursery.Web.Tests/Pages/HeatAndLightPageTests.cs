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

        Assert.Contains("no reading yet", page.WaitForElement("[aria-label='Zone Z70']").TextContent, StringComparison.Ordinal);
        Assert.Contains("nothing lies here", page.Markup, StringComparison.Ordinal);
        Assert.Contains("3 heat zones, no alarm", page.Find(".head").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("button.do"));
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
        Assert.Contains("1 reading of probe.csv imported", page.Find(".said").TextContent, StringComparison.Ordinal);
    }

    private static void Choose(IRenderedComponent<HeatAndLightPage> page, string rows) => page.FindComponent<InputFile>().UploadFiles(
        InputFileContent.CreateFromText("zone,at,temperature_c\n" + rows, "probe.csv"));

    private static async Task OnHeatAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
    }
}
