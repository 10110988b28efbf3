using Bunit;
using Microsoft.AspNetCore.Components.Web;
using Nursery.Application.Benches;
using Nursery.Domain.Batches;
using Nursery.Domain.Sites;
using Nursery.Web.Components.Pages.Benches;
using Xunit;

namespace Nursery.Web.Tests.Benches;

public sealed class BenchMapTests : BunitContext, IAsyncLifetime
{
    public BenchMapTests() => JSInterop.Mode = JSRuntimeMode.Loose;

    public Task InitializeAsync() => Task.CompletedTask;

    async Task IAsyncLifetime.DisposeAsync() => await base.DisposeAsync();

    [Theory]
    [InlineData(BatchStage.Planned, "stage-planned")]
    [InlineData(BatchStage.Sown, "stage-sown")]
    [InlineData(BatchStage.Emerging, "stage-emerging")]
    [InlineData(BatchStage.GrowingOn, "stage-growing-on")]
    [InlineData(BatchStage.HardeningOff, "stage-hardening-off")]
    [InlineData(BatchStage.Ready, "stage-ready")]
    public void Render_Stage_FillsWithItsPattern(BatchStage stage, string pattern)
    {
        var map = Map(SampleHouse.OfOneBench(SampleHouse.Trays("EG-031-K-1", 1, 14, stage)));

        Assert.Equal($"url(#{pattern})", map.Find("g.set path").GetAttribute("fill"));
        Assert.Single(map.FindAll($"pattern#{pattern}"));
    }

    [Fact]
    public void Render_WrongStanding_SaysItInWords()
    {
        var bench = SampleHouse.Bench(
            "1A", 90, 101, 500, 3, 54, [SampleHouse.Trays("EG-031-K-1", 1, 14, reserved: false)], new HouseZone("Z1", 1, 54, 26.67m, 26.33m));
        var map = Map(SampleHouse.House(1800, 900, bench));

        Assert.Equal("still on heat", map.Find("g.label .word").TextContent);
        Assert.Equal("80 °F · reads 79.4", map.Find("g.plate text").TextContent);
        Assert.Contains("wrong", map.Find("g.set").ClassList);
    }

    [Fact]
    public void Render_Bench_SaysFreeSpacesAndDrawsEachOfThem()
    {
        var map = Map(SampleHouse.OfOneBench(SampleHouse.Trays("EG-031-K-1", 1, 14)));

        Assert.Equal("40 free of 54", map.Find("text.count").TextContent);
        Assert.Equal(40, map.Find("path.free").GetAttribute("d")!.Count(sign => sign == 'M'));
        Assert.Equal(14, map.Find("path.trays").GetAttribute("d")!.Count(sign => sign == 'M'));
    }

    [Fact]
    public void Render_ZoneOutOfUse_IsHatchedAndSaidInWords()
    {
        const string Words = "Heat zone Z1 of bench 1A is out of use from 2 March 2026 until 12 March 2026: mat cold";
        var bench = SampleHouse.Bench("1A", 90, 101, 500, 3, 54, [SampleHouse.Trays("EG-031-K-1", 31, 4)]) with { Free = 32, OutOfUse = [new(1, 18, Words)] };

        var map = Map(SampleHouse.House(1800, 900, bench));

        Assert.Equal("url(#out-of-use)", map.Find("path.out").GetAttribute("fill"));
        Assert.Single(map.FindAll("pattern#out-of-use"));
        Assert.Equal($"{Words}.", map.Find(".outages li").TextContent.Trim());
        Assert.EndsWith(Words, map.Find("g.bench").GetAttribute("aria-label"), StringComparison.Ordinal);
        Assert.Equal(32, map.Find("path.free").GetAttribute("d")!.Count(sign => sign == 'M'));
        Assert.Empty(Map(SampleHouse.OfOneBench(SampleHouse.Trays("EG-031-K-1", 1, 14))).FindAll(".out, .outages"));
    }

    [Theory]
    [InlineData("Enter", true)]
    [InlineData(" ", true)]
    [InlineData("x", false)]
    public void KeyDown_OnTrays_SelectsThem(string key, bool selects)
    {
        TraySetKey? selected = null;
        var map = Map(SampleHouse.OfOneBench(SampleHouse.Trays("EG-031-K-1", 1, 14)), chosen => selected = chosen);

        var trays = map.Find("g.set[role=button][tabindex='0']");
        trays.KeyDown(new KeyboardEventArgs { Key = key });

        Assert.Equal("EG-031-K-1, Eggplant ‘Inkwell’, sown, 14 trays, bench 1A, spaces 1–14", trays.GetAttribute("aria-label"));
        Assert.Equal(selects ? "EG-031-K-1" : null, selected?.Code);
    }

    [Fact]
    public void Render_GeneratedHouse_ListsEveryTroubleInWords()
    {
        var house = SampleHouse.Generated(7);
        var wrong = house.Benches.SelectMany(TraySetsOfBench.Of).Where(set => set.Trouble is not null).ToList();
        Assert.NotEmpty(wrong);

        var picks = Map(house).FindAll(".picks button").Select(button => button.TextContent).ToList();

        Assert.Equal(wrong.Count, picks.Count);
        Assert.All(wrong, set => Assert.Contains(picks, pick =>
            pick.Contains(set.ShortCode, StringComparison.Ordinal) && pick.Contains(set.Trouble!, StringComparison.Ordinal)));
    }

    [Fact]
    public void Render_TraysWithoutSpaces_CanBeSelectedBesideTheMap()
    {
        TraySetKey? selected = null;
        var map = Map(SampleHouse.OfOneBench(SampleHouse.Trays("EG-031-K-1", null, 14, reserved: false)), chosen => selected = chosen);

        map.FindAll(".picks button").Single(button => button.TextContent.Contains("EG-031", StringComparison.Ordinal)).Click();

        Assert.Equal("EG-031-K-1", selected?.Code);
    }

    [Fact]
    public void Render_2000Trays_StaysAFewElementsATraySet()
    {
        var house = SampleHouse.Of2000Trays();
        Assert.True(house.Benches.Sum(bench => bench.Trays.Sum(row => row.Trays)) >= 2000);

        var map = Map(house);

        var sets = map.FindAll("g.set").Count;
        Assert.Equal(252, sets);
        Assert.InRange(map.FindAll("svg.map *").Count, sets, sets * 9);
    }

    private IRenderedComponent<BenchMap> Map(HousePlan house, Action<TraySetKey>? choose = null) => Render<BenchMap>(map => map
        .Add(it => it.House, house).Add(it => it.Units, Units.UsCustomary).Add(it => it.OnSelect, choose ?? (_ => { })));
}
