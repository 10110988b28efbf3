using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Papers;
using Nursery.Application.Reservations;
using Nursery.Application.Sowings;
using Nursery.Application.Tests.Forecasts;
using Nursery.Domain.Crops;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Sowings;

public sealed class ListSowingsTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_NoDaysNamed_GivesThisWeekByDayWithSeedsAndPlace()
    {
        // Monday, 2 March 2026: the week is 2 to 8 March.
        await using var nursery = await TestNursery.OpenAsync(database);
        var today = await nursery.PlanAsync(nursery.Pepper, trays: 3, cells: 72, seeds: 2);
        var sunday = await nursery.PlanAsync(nursery.Lettuce, trays: 1, inDays: 6);
        await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 7);
        await nursery.Get<PlaceByFirstFit>().HandleAsync(nursery.HeadGrower);

        var list = await nursery.Get<ListSowings>().HandleAsync(null, null, nursery.Staff);

        Assert.Equal((nursery.Today, nursery.Today.PlusDays(6)), (list.From, list.To));
        Assert.Empty(list.Late);
        Assert.Equal([nursery.Today, nursery.Today.PlusDays(6)], list.Days.Select(day => day.Day));
        var item = Assert.Single(list.Days[0].Items);
        Assert.Equal((today.Code, 3, 216, 432L), (item.BatchCode, item.Trays, item.Cells, item.SeedsToTake));
        Assert.Equal((nursery.PepperLot.Code, 100_000, false), (item.LotCode, item.StockSeeds, item.Shared));
        Assert.Equal(new SowingPlace("G1", "1–3"), item.Where);
        Assert.Equal(sunday.Code, Assert.Single(list.Days[1].Items).BatchCode);
    }

    [Fact]
    public async Task HandleAsync_UnsownFromTheWeekBefore_IsLateUntilItIsSown()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, inDays: 1);
        var sown = await nursery.PlanAsync(nursery.Pepper);
        await nursery.SowAsync(sown);
        nursery.Clock.Advance(TimeSpan.FromDays(7));

        var list = await nursery.Get<ListSowings>().HandleAsync(null, null, nursery.Staff);
        Assert.Equal(batch.Code, Assert.Single(list.Late).BatchCode);
        Assert.Empty(list.Days);

        var before = await nursery.Get<ListSowings>().HandleAsync(nursery.Today.PlusDays(-7), null, nursery.Staff);
        Assert.Empty(before.Late);
        Assert.Equal([sown.Code, batch.Code], before.Days.SelectMany(day => day.Items).Select(item => item.BatchCode));
        Assert.Equal(nursery.Today.PlusDays(-7), before.Days[0].Items[0].SownOn);

        var next = await nursery.Get<ListSowings>().HandleAsync(nursery.Today.PlusDays(7), null, nursery.Staff);
        Assert.Empty(next.Late);
    }

    /// <summary>57 days for a crop of 58: a short stand would show too late, and it says so with the price of a tray.</summary>
    [Fact]
    public async Task HandleAsync_WithoutSlack_SaysThatAShortStandCannotBeKnownInTimeAndWhatATrayCosts()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (tight, ample) = (await nursery.PlannedForOrderAsync(100, 57), await nursery.PlannedForOrderAsync(100, 90));
        var plain = await nursery.PlanAsync(nursery.Pepper);

        var items = (await nursery.Get<ListSowings>().HandleAsync(null, null, nursery.Staff)).Days.Single().Items.ToDictionary(item => item.BatchId);

        var (poor, free) = (items[tight.Id], items[ample.Id]);
        Assert.False(poor.Risk!.KnownInTime);
        Assert.True(poor.Risk.LastResowOn < nursery.Today);
        Assert.True(free.Risk!.KnownInTime);
        Assert.Null(free.Insurance);
        Assert.Null(items[plain.Id].Risk);
        Assert.Null(items[plain.Id].Chance);

        // 72 seeds at 20 a thousand, the tray at 5, heat at 0.05 a day for the days of the profile: from memory all of them.
        var heatDays = TestCrops.Pepper().PlannedHeatDays;
        Assert.Equal((72, 1), (poor.Insurance!.Cells, poor.Insurance.Trays));
        Assert.Equal(1.44 + 5 + (0.05 * heatDays), poor.Insurance.Cost, 9);
        Assert.True(poor.Insurance.Chance > poor.Chance + 0.1);
        Assert.Contains(poor.How, how => how.What == "insurance tray");
        Assert.Equal(poor.Chance, free.Chance);
        Assert.Contains("less than the 95 % asked for", Assert.Single(poor.Warnings), StringComparison.Ordinal);
    }

    [Fact]
    public async Task HandleAsync_GramsAndMix_AreOfTheCellsOfTheDay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 3, cells: 72, seeds: 2);
        await nursery.PlanAsync(nursery.Lettuce, trays: 2, cells: 128);
        await nursery.SowAsync(await nursery.PlanAsync(nursery.Lettuce, trays: 9, cells: 128));

        var day = (await nursery.Get<ListSowings>().HandleAsync(null, null, nursery.Staff)).Days.Single();

        var pepper = day.Items.Single(item => item.CropName == "Pepper");
        Assert.Equal(432 / (double)nursery.PepperLot.SeedsPerGram, pepper.Grams!.Value, 9);
        Assert.Equal(100_000 / (double)nursery.PepperLot.SeedsPerGram, pepper.StockGrams!.Value, 9);

        // Cells of 43 and 23 mL (Ontario ministry of agriculture), a tenth for settling, a twentieth for waste; what is sown needs no mix.
        Assert.Equal(216 * 0.043 * 1.1 * 1.05, pepper.MixLiters!.Value, 9);
        Assert.Equal(((216 * 0.043) + (256 * 0.023)) * 1.1 * 1.05, day.Mix!.Liters, 9);
        Assert.Equal([(72, 216), (128, 256)], day.Mix.Trays.Select(size => (size.CellsPerTray, size.Cells)));
        Assert.Equal((1, 107, 0), (day.Mix.Packages, day.Mix.PackageLiters, day.Mix.UnknownTrays));
        Assert.Empty(day.Mix.Amendments);
    }

    /// <summary>600 g of gypsum a cubic meter; a bale of 80 L gives 1.5 times that.</summary>
    [Fact]
    public async Task HandleAsync_MixOfTheSite_IsWhatItsSetupSays()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using (var rows = await nursery.DatabaseAsync())
        {
            var site = await rows.Sites.SingleAsync(row => row.Id == nursery.At.Site.Id);
            (site.MixAmendments, site.MixPackageLiters, site.MixExpansion) = ("gypsum 600, limestone 2000", 80, 1.5m);
            await rows.SaveChangesAsync();
        }

        await nursery.PlanAsync(nursery.Pepper, trays: 100, cells: 72);

        var mix = (await nursery.Get<ListSowings>().HandleAsync(null, null, nursery.Staff)).Days.Single().Mix!;

        // 7,200 × 0.043 × 1.155 = 357.6 L; 357.6 ÷ 120 = 2.98.
        Assert.Equal(357.588, mix.Liters, 6);
        Assert.Equal(3, mix.Packages);
        Assert.Equal(["gypsum", "limestone"], mix.Amendments.Select(amendment => amendment.Name));
        Assert.Equal(214.5528, mix.Amendments[0].Grams, 6);
        Assert.Equal(715.176, mix.Amendments[1].Grams, 6);
        Assert.Equal("358 L of loosened mix, 3 bales or bags of 80 L; stir in gypsum 215 g, limestone 715 g", MixWords.Sum(mix, Units.Metric));

        // 357.588 ÷ 28.3168 = 12.6; 80 ÷ 28.3168 = 2.8; 214.5528 ÷ 28.3495 = 7.6; 715.176 ÷ 453.592 = 1.6 (NIST Handbook 44, appendix C).
        Assert.Equal(
            "13 cu ft (358 L) of loosened mix, 3 bales or bags of 2.8 cu ft (80 L); stir in gypsum 7.6 oz (215 g), limestone 1.6 lb (715 g)",
            MixWords.Sum(mix, Units.UsCustomary));
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(366)]
    public async Task HandleAsync_DaysOutOfOrderOrTooMany_AreRefused(int days)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        await Assert.ThrowsAsync<InvalidFields>(() =>
            nursery.Get<ListSowings>().HandleAsync(nursery.Today, nursery.Today.PlusDays(days), nursery.Staff));
    }

    // 1 in = 25.4 mm (NIST Handbook 44, appendix C). 6.35 mm is 1/4 in; 12.7 mm is 1/2 in.
    [Theory]
    [InlineData(0, Units.Metric, "on the surface, no cover")]
    [InlineData(6, Units.Metric, "6 mm, cover")]
    [InlineData(2.5, Units.Metric, "2.5 mm, cover")]
    [InlineData(6, Units.UsCustomary, "1/4 in, cover")]
    [InlineData(13, Units.UsCustomary, "1/2 in, cover")]
    [InlineData(3, Units.UsCustomary, "1/8 in, cover")]
    [InlineData(0.5, Units.UsCustomary, "1/16 in, cover")]
    [InlineData(25.4, Units.UsCustomary, "1 in, cover")]
    [InlineData(38, Units.UsCustomary, "1 1/2 in, cover")]
    public void Depth_Millimeters_AreSaidInTheSitesUnits(double depth, Units units, string words) =>
        Assert.Equal(words, SowingWords.Depth((decimal)depth, units));

    [Fact]
    public void Light_EveryNeed_HasWords() =>
        Assert.All(Enum.GetValues<LightNeed>(), need => Assert.NotEmpty(SowingWords.Light(need)));

    // ISO 8601: weeks begin on Monday.
    [Theory]
    [InlineData(2026, 3, 2)]
    [InlineData(2026, 3, 5)]
    [InlineData(2026, 3, 8)]
    public void MondayOf_AnyDayOfTheWeek_IsItsMonday(int year, int month, int day) =>
        Assert.Equal(new LocalDate(2026, 3, 2), ListSowings.MondayOf(new LocalDate(year, month, day)));
}
