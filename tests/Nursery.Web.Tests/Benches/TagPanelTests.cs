using Bunit;
using Nursery.Application.Benches;
using Nursery.Domain.Batches;
using Nursery.Web.Components.Pages.Benches;
using Xunit;

namespace Nursery.Web.Tests.Benches;

public sealed class TagPanelTests : BunitContext, IAsyncLifetime
{
    public Task InitializeAsync() => Task.CompletedTask;

    async Task IAsyncLifetime.DisposeAsync() => await base.DisposeAsync();

    [Fact]
    public void Render_Sown_TellsFactsAndOpensTheBatch()
    {
        var trays = SampleHouse.Trays("EG-031-K-1", 31, 14);
        var panel = Panel(trays);

        Assert.Equal("Eggplant ‘Inkwell’", panel.Find("h2").TextContent);
        var facts = panel.FindAll("dd").Select(fact => fact.TextContent.Trim()).ToList();
        Assert.Equal(
            ["sown", "27 March, day 6", "14 × 36 cells, 2 seeds a cell", "L-0442", "1A, spaces 31–44", "27 March to 15 April", "1 June"], facts);
        Assert.Equal($"/batches/{trays.BatchId}", panel.Find("a").GetAttribute("href"));
        Assert.Empty(panel.FindAll(".wrong"));
    }

    [Fact]
    public void Render_NotByPlan_WarnsInASentence() => Assert.Contains(
        "nothing is reserved for it here", Panel(SampleHouse.Trays("EG-031-K-1", 31, 14, reserved: false)).Find(".wrong").TextContent, StringComparison.Ordinal);

    [Fact]
    public void Render_SowDayPassed_SaysSo() => Assert.Contains(
        "was to be sown on 27 March", Panel(SampleHouse.Trays("EG-031-K-1", 31, 14, BatchStage.Planned, standing: false)).Find(".wrong").TextContent, StringComparison.Ordinal);

    [Fact]
    public void Render_Nothing_SaysHowToSelect() =>
        Assert.Contains("press Enter", Render<TagPanel>(it => it.Add(p => p.Day, SampleHouse.Today).Add(p => p.Today, SampleHouse.Today)).Markup, StringComparison.Ordinal);

    private IRenderedComponent<TagPanel> Panel(BenchTrays trays) => Render<TagPanel>(panel => panel
        .Add(it => it.Set, TraySetsOfBench.Of(SampleHouse.Bench("1A", 90, 101, 500, 3, 54, [trays])).Single())
        .Add(it => it.Day, SampleHouse.Today).Add(it => it.Today, SampleHouse.Today));
}
