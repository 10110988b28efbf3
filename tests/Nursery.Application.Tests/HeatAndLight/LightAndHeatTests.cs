using Microsoft.EntityFrameworkCore;
using Nursery.Application.HeatAndLight;
using Nursery.Application.Rounds;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.HeatAndLight;

/// <summary>Light and energy of a site at 43° north on 2 March 2026.</summary>
public sealed class LightAndHeatTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Light_PlaceNotTold_IsNotReckoned()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        Assert.All((await ViewAsync(nursery)).Houses, house => Assert.Null(house.Light));
    }

    /// <summary>Half of what comes from outside the air (FAO-56 equation 35 at half the day's sunshine), × 2.05 mol/MJ × 0.3 through the cover.</summary>
    [Fact]
    public async Task Light_LampsAndPlantsUp_SaysHoursEnergyAndCost()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlaceAsync(nursery, latitude: 43);
        await UpInHouse1Async(nursery);
        nursery.Clock.Advance(TimeSpan.FromDays(10));

        var light = (await ViewAsync(nursery)).Houses[0].Light!;

        var above = new Agronomy.Light.DaySun(new Agronomy.Light.Latitude(43), nursery.Today.DayOfYear).ExtraterrestrialMj;
        Assert.Equal(above * 0.5 * 2.05 * 0.3, light.Inside.Median, 1e-6);
        Assert.Equal((1, 10, 12), (light.Batches, light.TargetFrom, light.TargetTo));
        var lamps = light.Lamps!;
        Assert.Equal((10 - light.Inside.Median) / (120 * 0.0036), lamps.Hours.Median, 1e-6);
        Assert.True(lamps.Hours.Low < lamps.Hours.Median && lamps.Hours.Median < lamps.Hours.High);

        // Bench W1 is 6 × 1.2 m; 55 W for each of its m², at 14.5 cents.
        Assert.Equal(7.2, lamps.LitM2, 1e-9);
        Assert.Equal(55 * 7.2 * lamps.Hours.Median / 1000, lamps.Kwh, 1e-9);
        Assert.Equal(14.5 * lamps.Kwh, (double)lamps.Cost!.Value, 1e-6);
        Assert.False(lamps.IsShort);
        Assert.Contains(lamps.How.Inputs, input => input is { Name: "price", Value: "0.145", Unit: "USD/kWh" });
        Assert.Null((await ViewAsync(nursery)).Houses[1].Light!.Lamps);
    }

    [Fact]
    public async Task Light_NothingUp_WantsNoLamps()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlaceAsync(nursery, latitude: 43);

        var light = (await ViewAsync(nursery)).Houses[0].Light!;

        Assert.Equal((0, 0d), (light.Batches, light.TargetFrom));
        Assert.Equal(0, light.Lamps!.Hours.High);
    }

    [Fact]
    public async Task Light_FarNorthInWinter_SaysThatLampsAreTooWeak()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlaceAsync(nursery, latitude: 80);
        await UpInHouse1Async(nursery);
        nursery.Clock.Advance(TimeSpan.FromDays(300));

        var light = (await ViewAsync(nursery)).Houses[0].Light!;

        Assert.Equal(0, light.Inside.Median);
        Assert.Equal((16d, true), (light.Lamps!.Hours.Median, light.Lamps.IsShort));
    }

    /// <summary>80 °F over 18 °C air: 8.67 °C × 9 W × 10 spaces of 0.1507 m² × 24 h; 135 W/m² are on for 58 % of it.</summary>
    [Fact]
    public async Task Mat_ZoneOver18Degrees_TakesWhatTheFormulaSays()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlaceAsync(nursery, latitude: 43);

        var mat = (await ViewAsync(nursery)).Houses[0].Zones.Single(zone => zone.Code == "Z80").Mat;

        Assert.Equal(8.67 * 9 * 10 * 0.277 * 0.544 * 24 / 1000, mat.Kwh, 0.002);
        Assert.Equal(8.67 * 9 / 135, mat.Duty, 0.001);
        Assert.Equal(14.5 * mat.Kwh, (double)mat.Cost!.Value, 1e-6);
    }

    private static async Task PlaceAsync(TestNursery nursery, decimal latitude)
    {
        await using var rows = await nursery.DatabaseAsync();
        await rows.Sites.Where(site => site.Id == nursery.At.Site.Id).ExecuteUpdateAsync(site => site
            .SetProperty(row => row.Latitude, latitude).SetProperty(row => row.Longitude, -89.8m).SetProperty(row => row.KwhPrice, 14.5m));
        await rows.Houses.Where(house => house.Id == nursery.At.House1.Id).ExecuteUpdateAsync(house => house
            .SetProperty(row => row.CoverShare, 0.3m).SetProperty(row => row.LampPpfd, 120m).SetProperty(row => row.LampWattsM2, 55m));
    }

    private static async Task UpInHouse1Async(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromMinutes(1));
        await nursery.RecordAsync(new TraysMoved(batch.TraySetCode, new TrayChoice(2, null), "W1", 1));
    }

    private static Task<HeatAndLightView> ViewAsync(TestNursery nursery) => nursery.Get<ShowHeatAndLight>().HandleAsync(nursery.Staff);
}
