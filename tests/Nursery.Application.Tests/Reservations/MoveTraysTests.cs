using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Reservations;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Reservations;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Reservations;

public sealed class MoveTraysTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_OtherBench_PastDaysStayWhereTheyWere()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (batch, reserved) = await ReservedAsync(nursery, "W1", 4);
        nursery.Clock.Advance(TimeSpan.FromDays(3));

        var moved = await nursery.Get<MoveTrays>().HandleAsync(new MoveTraysRequest(reserved.Id, "C1", 9), nursery.HeadGrower);

        Assert.Equal(("C1", 9, 4, nursery.Today, reserved.To), (moved.BenchCode, moved.FirstSpace, moved.Spaces, moved.From, moved.To));
        var rows = await RowsAsync(nursery);
        Assert.Equal([nursery.At.Warm.Id, nursery.At.Cool.Id], rows.Select(row => row.BenchId));
        Assert.Equal([(reserved.From, nursery.Today), (nursery.Today, reserved.To)], rows.Select(row => (row.Days.Start, row.To)));
        Assert.Equal(batch.TraySetCode, moved.TraySetCode);
    }

    [Fact]
    public async Task HandleAsync_SomeTrays_TheOthersKeepTheirSpaces()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (_, reserved) = await ReservedAsync(nursery, "W1", 6);

        await nursery.Get<MoveTrays>().HandleAsync(
            new MoveTraysRequest(reserved.Id, "C1", 1, new SpaceRun(3, 2)), nursery.HeadGrower);

        Assert.Equal(
            [("W1", new SpaceRun(1, 2), new SpaceRun(1, 2)), ("C1", new SpaceRun(3, 2), new SpaceRun(1, 2)), ("W1", new SpaceRun(5, 2), new SpaceRun(5, 2))],
            (await RowsAsync(nursery)).Select(row => (row.BenchId == nursery.At.Warm.Id ? "W1" : "C1", row.Trays, row.Spaces)));
    }

    [Fact]
    public async Task HandleAsync_AlongItsOwnBench_DoesNotMeetItself()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (_, reserved) = await ReservedAsync(nursery, "W1", 6);

        var moved = await nursery.Get<MoveTrays>().HandleAsync(new MoveTraysRequest(reserved.Id, "W1", 3), nursery.HeadGrower);

        Assert.Equal(3, moved.FirstSpace);
        Assert.Equal(new SpaceRun(3, 6), Assert.Single(await RowsAsync(nursery)).Spaces);
    }

    [Fact]
    public async Task TryAsync_PlaceHeld_SaysByWhomAndUntilWhenAsTheMoveWould()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (holder, held) = await ReservedAsync(nursery, "C1", 4);
        var (_, reserved) = await ReservedAsync(nursery, "W1", 4);
        var request = new MoveTraysRequest(reserved.Id, "C1", 4);

        var tried = await Assert.ThrowsAsync<SpaceTaken>(() => nursery.Get<MoveTrays>().TryAsync(request, nursery.HeadGrower));
        var moved = await Assert.ThrowsAsync<SpaceTaken>(() => nursery.Get<MoveTrays>().HandleAsync(request, nursery.HeadGrower));

        Assert.Equal(holder.TraySetCode, tried.Facts["heldBy"]);
        Assert.Equal(NodaTime.Text.LocalDatePattern.Iso.Format(held.To), tried.Facts["until"]);
        Assert.Equal(tried.Message, moved.Message);
    }

    [Fact]
    public async Task TryAsync_Fits_StoresNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (_, reserved) = await ReservedAsync(nursery, "W1", 4);

        var tried = await nursery.Get<MoveTrays>().TryAsync(new MoveTraysRequest(reserved.Id, "C1", null), nursery.HeadGrower);

        Assert.Null(tried.ChangeId);
        Assert.Equal(nursery.At.Warm.Id, Assert.Single(await RowsAsync(nursery)).BenchId);
    }

    [Fact]
    public async Task TryAsync_ZoneTooCold_SaysBothTemperatures()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (_, reserved) = await ReservedAsync(nursery, "W1", 2);

        var cold = await Assert.ThrowsAsync<TooCold>(
            () => nursery.Get<MoveTrays>().TryAsync(new MoveTraysRequest(reserved.Id, "G1", 21), nursery.HeadGrower));

        Assert.Equal((15.56m, 18.33m, 35m), (cold.SetpointC, cold.CropMinC, cold.CropMaxC));
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(20)]
    public async Task HandleAsync_DayNotHeld_IsRefusedByField(int days)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (_, reserved) = await ReservedAsync(nursery, "W1", 2);

        var refused = await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<MoveTrays>().HandleAsync(
            new MoveTraysRequest(reserved.Id, "C1", null, On: nursery.Today.PlusDays(days)), nursery.HeadGrower));

        Assert.Equal("on", Assert.Single(refused.Errors).Field);
    }

    [Fact]
    public async Task HandleAsync_WithoutTheRight_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (_, reserved) = await ReservedAsync(nursery, "W1", 2);

        await Assert.ThrowsAsync<NotAllowed>(() => nursery.Get<MoveTrays>().HandleAsync(
            new MoveTraysRequest(reserved.Id, "C1", null), nursery.As(Role.Staff)));
    }

    private static async Task<(PlannedBatch Batch, ReservedSpaces Reserved)> ReservedAsync(TestNursery nursery, string bench, int trays)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: trays);
        return (batch, await nursery.ReserveAsync(batch, bench, null, nursery.Today, nursery.Today.PlusDays(20)));
    }

    private static async Task<List<Reservation>> RowsAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        return [.. (await rows.Reservations.AsNoTracking().Where(row => row.SiteId == nursery.At.Site.Id).ToListAsync())
            .OrderBy(row => row.Days.Start).ThenBy(row => row.Trays.First)];
    }
}
