using Bunit;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application;
using Nursery.Application.Benches;
using Nursery.Application.Outages;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Benches;
using Nursery.Web.Tests.Pages;
using Xunit;

namespace Nursery.Web.Tests.Benches;

/// <summary>A bench is taken out of use and given back, on Monday, 2 March 2026.</summary>
public sealed class OutagePanelTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Bench_TakenOutOfUseWithTraysOnIt_NamesThem_AndIsGivenBack()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var sown = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        await nursery.ReserveAsync(sown, "G1", 1, nursery.Today, nursery.Today.PlusDays(9));
        var houses = await nursery.Get<ShowHouses>().HandleAsync(null, nursery.HeadGrower);
        var changes = 0;
        var panel = pages.Render<OutagePanel>(parameters => parameters.Add(panel => panel.Houses, houses).Add(panel => panel.OnChanged, () => changes++));
        Assert.Contains("(0)", panel.Find("summary").TextContent, StringComparison.Ordinal);

        await TakeAsync(panel);

        panel.WaitForAssertion(() => Assert.Contains(
            $"Bench G1 is out of use from 2 March 2026 until 9 March 2026: its leg broke. Trays that stand or are planned there: {sown.TraySetCode}.",
            Flat(panel.Find("li")), StringComparison.Ordinal));
        Assert.Equal(1, changes);

        // The same once more is refused with the days it is out of use already.
        await TakeAsync(panel);
        panel.WaitForAssertion(() => Assert.Contains("Bench G1 is out of use from 2 March 2026", panel.Find("[role=alert]").TextContent, StringComparison.Ordinal));
        Assert.Equal(1, changes);

        await ClickAsync(panel, "li button");
        panel.WaitForAssertion(() => Assert.Empty(panel.FindAll("li")));
        Assert.Equal(2, changes);
        Assert.Empty((await nursery.Get<ListOutages>().HandleAsync(new Paging(), nursery.HeadGrower)).Items);
    }

    private static async Task TakeAsync(IRenderedComponent<OutagePanel> panel)
    {
        await panel.InvokeAsync(() => panel.Find("#outage-what").Change("bench G1"));
        await panel.InvokeAsync(() => panel.Find("#outage-why").Change("its leg broke"));
        await ClickAsync(panel, "div.fields > button");
    }

    /// <summary>A click while something is asked would be lost.</summary>
    private static async Task ClickAsync(IRenderedComponent<OutagePanel> panel, string button)
    {
        panel.WaitForAssertion(() => Assert.False(panel.Find(button).HasAttribute("disabled")));
        await panel.Find(button).ClickAsync(new());
    }

    private static string Flat(AngleSharp.Dom.IElement element) => string.Join(' ', element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
