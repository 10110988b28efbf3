using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Reservations;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Reservations;

public sealed class ReserveSpacesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_NoFirstSpace_TakesTheFirstRunThatFits()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        var (from, to) = Days(nursery);
        await nursery.ReserveAsync(batch, "W1", 4, from, to);

        // Spaces 1–3 are free but too few; 4–7 are held.
        var reserved = await nursery.ReserveAsync(batch, "W1", null, from, to);

        Assert.Equal((8, 4), (reserved.FirstSpace, reserved.Spaces));
        Assert.Equal((from, to), (reserved.From, reserved.To));
    }

    [Fact]
    public async Task HandleAsync_DayAfterAnotherEnds_TheSameSpacesAreFree()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        var (from, to) = Days(nursery);
        await nursery.ReserveAsync(batch, "W1", 1, from, to);

        Assert.Equal(1, (await nursery.ReserveAsync(batch, "W1", 1, to, to.PlusDays(1))).FirstSpace);
        await Assert.ThrowsAsync<SpaceTaken>(() => nursery.ReserveAsync(batch, "W1", 1, to.PlusDays(-1), to.PlusDays(3)));
    }

    [Fact]
    public async Task HandleAsync_NoRunLongEnough_SaysHowManyAreFree()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 6);
        var (from, to) = Days(nursery);
        foreach (var first in new[] { 1, 7, 15, 21, 27, 35 })
        {
            await nursery.ReserveAsync(batch, "W1", first, from, to);
        }

        // Free are 13–14 and 33–34.
        var full = await Assert.ThrowsAsync<BenchIsFull>(() => nursery.ReserveAsync(batch, "W1", null, from, to));

        Assert.Equal((40, 4, 2, 6), (full.Facts["spaces"], full.Facts["free"], full.Facts["longestRun"], full.Facts["asked"]));
        Assert.Contains("W1 has 40 spaces; on those days 4 are free, the longest run is 2, 6 asked", full.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task HandleAsync_FirstSpaceHeld_SaysByWhomAndUntilWhen()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var holder = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        var batch = await nursery.PlanAsync(nursery.Lettuce, trays: 4);
        var (from, to) = Days(nursery);
        await nursery.ReserveAsync(holder, "C1", 3, from, to);

        var taken = await Assert.ThrowsAsync<SpaceTaken>(() => nursery.ReserveAsync(batch, "C1", 1, from, to.PlusDays(5)));

        Assert.Equal(holder.TraySetCode, taken.Facts["heldBy"]);
        Assert.Equal(NodaTime.Text.LocalDatePattern.Iso.Format(to), taken.Facts["until"]);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(38)]
    [InlineData(41)]
    [InlineData(int.MaxValue)]
    public async Task HandleAsync_FirstSpaceBeyondTheBench_IsRefusedByField(int firstSpace)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        var (from, to) = Days(nursery);

        var refused = await Assert.ThrowsAsync<InvalidFields>(() => nursery.ReserveAsync(batch, "W1", firstSpace, from, to));

        Assert.Equal("firstSpace", Assert.Single(refused.Errors).Field);
        Assert.Contains("1–37", refused.Errors[0].Allowed, StringComparison.Ordinal);
        Assert.Equal(37, (await nursery.ReserveAsync(batch, "W1", 37, from, to)).FirstSpace);
    }

    [Fact]
    public async Task HandleAsync_ZoneBelowTheCrop_IsTooColdWithBothTemperatures()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        var (from, to) = Days(nursery);

        var refused = await Assert.ThrowsAsync<TooCold>(() => nursery.ReserveAsync(pepper, "G1", 21, from, to));

        Assert.Equal((15.56m, 18.33m, 35m), (refused.Facts["setpointC"], refused.Facts["cropMinC"], refused.Facts["cropMaxC"]));
        Assert.Contains("too cold for Pepper", refused.Message, StringComparison.Ordinal);

        // Half in the zone of 70 °F, half in that of 60 °F.
        await Assert.ThrowsAsync<TooCold>(() => nursery.ReserveAsync(pepper, "G1", 20, from, to));
        Assert.Equal(19, (await nursery.ReserveAsync(pepper, "G1", 19, from, to)).FirstSpace);
    }

    [Fact]
    public async Task HandleAsync_ZoneAboveTheCrop_IsTooHotWithBothTemperatures()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce, trays: 2);
        var (from, to) = Days(nursery);

        var refused = await Assert.ThrowsAsync<TooHot>(() => nursery.ReserveAsync(lettuce, "G1", 1, from, to));

        Assert.Equal((26.67m, 1.67m, 23.89m), (refused.Facts["setpointC"], refused.Facts["cropMinC"], refused.Facts["cropMaxC"]));
        Assert.Equal(11, (await nursery.ReserveAsync(lettuce, "G1", null, from, to)).FirstSpace);
    }

    [Fact]
    public async Task HandleAsync_SuitableZonesHeldOthersFree_SaysTheTemperatureIsWrong()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var tomato = await nursery.PlanAsync(nursery.Tomato, trays: 7);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce, trays: 10);
        var (from, to) = Days(nursery);
        await nursery.ReserveAsync(tomato, "G1", 14, from, to);

        await Assert.ThrowsAsync<TooHot>(() => nursery.ReserveAsync(lettuce, "G1", null, from, to));
    }

    [Fact]
    public async Task HandleAsync_TemperatureOnAGrowingBench_IsNotChecked()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        var (from, to) = Days(nursery);

        Assert.Equal(1, (await nursery.ReserveAsync(pepper, "C1", null, from, to)).FirstSpace);
    }

    [Fact]
    public async Task HandleAsync_EverythingWrong_NamesEveryField()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var request = new ReserveSpacesRequest(
            "XX-1", "YY", 1, null, nursery.Today.PlusDays(-1), nursery.Today.PlusDays(-1));

        var refused = await Assert.ThrowsAsync<InvalidFields>(
            () => nursery.Get<ReserveSpaces>().HandleAsync(request, nursery.HeadGrower));

        Assert.Equal(["traySetCode", "benchCode", "from", "to"], refused.Errors.Select(error => error.Field));
        Assert.All(refused.Errors, error => Assert.NotEmpty(error.Allowed));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public async Task HandleAsync_MoreTraysThanTheSet_IsRefused(int trays)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 2);
        var (from, to) = Days(nursery);
        var request = new ReserveSpacesRequest(batch.TraySetCode, "W1", trays, null, from, to);

        var refused = await Assert.ThrowsAsync<InvalidFields>(
            () => nursery.Get<ReserveSpaces>().HandleAsync(request, nursery.HeadGrower));

        Assert.Equal(("trays", "1–2"), (refused.Errors[0].Field, refused.Errors[0].Allowed));
    }

    [Fact]
    public async Task HandleAsync_PartsOfASet_TakeTraysOneAfterAnother()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 5);
        var (from, to) = Days(nursery);
        await nursery.Get<ReserveSpaces>().HandleAsync(
            new ReserveSpacesRequest(batch.TraySetCode, "G1", 2, 1, from, to), nursery.HeadGrower);
        await nursery.Get<ReserveSpaces>().HandleAsync(
            new ReserveSpacesRequest(batch.TraySetCode, "G1", 3, 11, from, to), nursery.HeadGrower);
        await nursery.SowAsync(batch);

        Assert.Equal(
            [("G1", new(1, 2), new(1, 2)), ("G1", new(3, 3), new(11, 3))],
            await nursery.StandingAsync());
    }

    [Fact]
    public async Task HandleAsync_NulInACode_IsMalformed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (from, to) = Days(nursery);

        await Assert.ThrowsAsync<Malformed>(() => nursery.Get<ReserveSpaces>().HandleAsync(
            new ReserveSpacesRequest("PE\0", "W1", 1, null, from, to), nursery.HeadGrower));
    }

    private static (LocalDate From, LocalDate To) Days(TestNursery nursery) => (nursery.Today, nursery.Today.PlusDays(10));
}
