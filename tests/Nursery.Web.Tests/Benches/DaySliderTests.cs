using Bunit;
using NodaTime;
using Nursery.Application.Benches;
using Nursery.Web.Components.Pages.Benches;
using Xunit;

namespace Nursery.Web.Tests.Benches;

public sealed class DaySliderTests : BunitContext, IAsyncLifetime
{
    private readonly List<LocalDate> _asked = [];

    public Task InitializeAsync() => Task.CompletedTask;

    async Task IAsyncLifetime.DisposeAsync() => await base.DisposeAsync();

    [Fact]
    public void Render_Season_RunsFourWeeksBackAndTwentyEightOn()
    {
        var input = Slider(SampleHouse.Today).Find("input[type=range]");

        Assert.Equal(("0", "224", "28"), (input.GetAttribute("min"), input.GetAttribute("max"), input.GetAttribute("value")));
        Assert.Equal("Thursday 2 April 2026", input.GetAttribute("aria-valuetext"));
    }

    [Fact]
    public void Input_WhileSliding_ShowsTheDayAndAsksOnlyWhenLetGo()
    {
        var slider = Slider(SampleHouse.Today);

        slider.Find("input").Input("35");
        Assert.Equal("Thu 9 April", slider.Find("output").TextContent);
        Assert.Empty(_asked);
        slider.Find("input").Change("35");

        Assert.Equal([new LocalDate(2026, 4, 9)], _asked);
    }

    [Fact]
    public void Click_Buttons_GoByDayAndWeekAndStayInTheSeason()
    {
        var slider = Slider(SampleHouse.Today.PlusDays(195));
        foreach (var button in new[] { 0, 3, 2, 1, 4 })
        {
            slider.FindAll(".row button")[button].Click();
        }

        Assert.Equal([188, 195, 196, 195, 0], _asked.ConvertAll(day => Period.DaysBetween(SampleHouse.Today, day)));
    }

    [Fact]
    public void LoadCurve_OverFull_RisesAboveTheLine()
    {
        var curve = LoadCurve.Of([new HouseLoad(SampleHouse.Today, 0, 100), new HouseLoad(SampleHouse.Today.PlusDays(1), 120, 100)]);

        Assert.Equal(LoadCurve.Height * (1 - (100 / (120 * 1.15))), curve.FullY, 6);
        Assert.StartsWith("M0 44L0 44L1 5.74L1 44Z", curve.Area, StringComparison.Ordinal);
    }

    private IRenderedComponent<DaySlider> Slider(LocalDate day) => Render<DaySlider>(slider => slider
        .Add(it => it.Season, new Season(SampleHouse.Today)).Add(it => it.Day, day)
        .Add(it => it.Curve, LoadCurve.Of([])).Add(it => it.DayChanged, _asked.Add));
}
