using NodaTime;
using Nursery.Agronomy.Emergence;
using Nursery.Application.Forecasts;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Forecasts;

public sealed class ShowForecastTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Forecast_BeforeAnyCount_IsThePriors()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.SownForOrderAsync(100, 70);

        var view = await nursery.Get<ShowForecast>().HandleAsync(batch.Code, nursery.Staff);

        // Label 80 %, five points less in a cell, pepper at about 78 °F: 0.95 of the best normal seedlings or more.
        var forecast = view.Forecast;
        Assert.Equal(ForecastBasis.Expected, forecast.Basis);
        Assert.InRange(forecast.FinalFraction.Median, 0.65, 0.78);
        Assert.Equal(144 * forecast.FinalFraction.Median, forecast.Stand.Median, 2d);
        Assert.InRange(forecast.ChanceMet!.Value, 0.2, 0.8);
        Assert.True(forecast.UsablePlants.Median < forecast.Stand.Median);
        Assert.Empty(view.Bands!.Now);
        Assert.Contains(forecast.How, how => how.What == "chance of the order");

        // Ready after 58 days (PlanBatchTests), due after 70: twelve days of slack; a window, never one day.
        Assert.Equal(12, forecast.SlackDays);
        Assert.True(forecast.Ready!.Early < forecast.Ready.Likely && forecast.Ready.Likely < forecast.Ready.Late);
        Assert.InRange(Period.DaysBetween(batch.ReadyOn, forecast.Ready.Likely), -6, 12);
        Assert.True(forecast.LastResowOn > nursery.Today && forecast.LastResowOn < nursery.Today.PlusDays(14));
    }

    [Fact]
    public async Task Forecast_Counted_IsTheCounts_AndSaysSoInWords()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.SownForOrderAsync(100, 70);
        nursery.Clock.Advance(TimeSpan.FromDays(12));
        await nursery.CountAsync(batch, 60);
        nursery.Clock.Advance(TimeSpan.FromDays(12));
        await nursery.CountAsync(batch, 80);

        var view = await nursery.Get<ShowForecast>().HandleAsync(batch.Id.ToString(), nursery.Staff);

        var forecast = view.Forecast;
        Assert.Equal(80, forecast.Stand.Median, 3d);
        Assert.True(forecast.ChanceMet < 0.01 && forecast.ChanceShort > 0.99);
        Assert.Equal(100 - forecast.UsablePlants.Median, forecast.ExpectedMissing, 2d);
        Assert.Equal(ForecastBasis.Over, forecast.Basis);
        Assert.Equal([12, 24], view.Bands!.Counted.Select(count => count.Day));
        Assert.Equal(80 / 144d, view.Bands.Now[0].Up.Median, 0.02);
        Assert.Contains(forecast.How.SelectMany(how => how.Inputs), input => input.Value == "80 in 144 cells");
    }

    [Fact]
    public async Task Forecast_CountTakenBack_IsTheOneBefore()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.SownForOrderAsync(100, 70);
        var before = (await nursery.Get<ShowForecast>().HandleAsync(batch.Code, nursery.Staff)).Forecast;
        nursery.Clock.Advance(TimeSpan.FromDays(24));
        var count = await nursery.CountAsync(batch, 50);
        Assert.True((await nursery.Get<ShowForecast>().HandleAsync(batch.Code, nursery.Staff)).Forecast.Stand.Median < before.Stand.Median - 15);

        await nursery.RecordAsync(new EntryUndone(count));

        var after = (await nursery.Get<ShowForecast>().HandleAsync(batch.Code, nursery.Staff)).Forecast;
        Assert.Equal(before.Stand, after.Stand);
        Assert.Null(after.Last);
    }

    /// <summary>Trays counted one by one on a day are one count; seedlings lost after it are missing.</summary>
    [Fact]
    public async Task Forecast_TrayByTray_AddsUp_AndLossesCount()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.SownForOrderAsync(100, 70);
        nursery.Clock.Advance(TimeSpan.FromDays(25));
        foreach (var (tray, up) in new[] { (1, 70), (2, 60) })
        {
            await nursery.RecordAsync(new PlantsCounted(batch.Id, CountWhat.CellsUp, up, new TrayChoice(null, [tray]), null, false));
        }

        var forecast = (await nursery.Get<ShowForecast>().HandleAsync(batch.Code, nursery.Staff)).Forecast;
        Assert.Equal((130, 144), (forecast.Last!.CellsUp, forecast.Last.Cells));
        Assert.Equal(130, forecast.Stand.Median, 3d);

        await nursery.RecordAsync(new PlantsLost(batch.Id, 50, "dropped"));
        var less = (await nursery.Get<ShowForecast>().HandleAsync(batch.Code, nursery.Staff)).Forecast;
        Assert.Equal(50 - Math.Round(forecast.Stand.Median * 0.05), forecast.UsablePlants.Median - less.UsablePlants.Median, 2d);
    }

    /// <summary>A colder zone is slower; another setpoint from a day on is felt from then on.</summary>
    [Fact]
    public async Task Forecast_Temperature_IsThatOfTheZone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var warm = await nursery.SownForOrderAsync(100, 70);
        var cold = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(cold, "G1", 11, nursery.Today, nursery.Today.PlusDays(25));
        await nursery.SowAsync(cold);
        var quick = (await nursery.Get<ShowForecast>().HandleAsync(warm.Code, nursery.Staff)).Forecast;
        var slow = (await nursery.Get<ShowForecast>().HandleAsync(cold.Code, nursery.Staff)).Forecast;

        Assert.True(slow.NineInTenUpOn > quick.NineInTenUpOn!.Value.PlusDays(2));
        var pepper = EmergenceDefaults.Find("Pepper")!;
        var expected = pepper.Rate.DaysToHalf(MediaOffset.Of(nursery.At.Zones[0].SetpointC is var set ? new Agronomy.Temperature(set) : default))!.Value;
        Assert.InRange(Period.DaysBetween(quick.SownOn, quick.HalfUp!.Likely), expected - 1, expected + 2);
        Assert.Contains(quick.How.SelectMany(how => how.Inputs), input => input.From.Contains("zone Z80", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Forecast_UnknownBatch_IsNotFound()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var other = await TestNursery.OpenAsync(database);
        var batch = await other.PlanAsync(other.Pepper);
        await Assert.ThrowsAsync<NotFound>(() => nursery.Get<ShowForecast>().HandleAsync("no", nursery.Staff));
        await Assert.ThrowsAsync<NotFound>(() => nursery.Get<ShowForecast>().HandleAsync(batch.Id.ToString(), nursery.Staff));
    }
}
