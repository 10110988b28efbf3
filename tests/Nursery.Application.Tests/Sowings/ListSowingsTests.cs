using NodaTime;
using Nursery.Application.Papers;
using Nursery.Application.Reservations;
using Nursery.Application.Sowings;
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
