using Microsoft.EntityFrameworkCore;
using Nursery.Application.Reservations;
using Nursery.Domain;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Reservations;

public sealed class UndoReplanTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_MoveOfSomeTrays_IsAsItWas()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var reserved = await ReserveAsync(nursery);
        var before = await PlacesAsync(nursery);
        var moved = await MoveAsync(nursery, reserved.Id, "C1", new SpaceRun(2, 3));

        await nursery.Get<UndoReplan>().HandleAsync(moved.ChangeId!.Value, nursery.HeadGrower);

        Assert.Equal(before, await PlacesAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_TwoMovesLastFirst_IsAsItWas()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var reserved = await ReserveAsync(nursery);
        var before = await PlacesAsync(nursery);
        var first = await MoveAsync(nursery, reserved.Id, "C1");
        var second = await MoveAsync(nursery, await OnlyIdAsync(nursery), "D1", new SpaceRun(1, 2));

        await nursery.Get<UndoReplan>().HandleAsync(second.ChangeId!.Value, nursery.HeadGrower);
        await nursery.Get<UndoReplan>().HandleAsync(first.ChangeId!.Value, nursery.HeadGrower);

        Assert.Equal(before, await PlacesAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_OfTheUndoing_MovesAgain()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var moved = await MoveAsync(nursery, (await ReserveAsync(nursery)).Id, "C1");
        var after = await PlacesAsync(nursery);

        var undone = await nursery.Get<UndoReplan>().HandleAsync(moved.ChangeId!.Value, nursery.HeadGrower);
        await nursery.Get<UndoReplan>().HandleAsync(undone, nursery.HeadGrower);

        Assert.Equal(after, await PlacesAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_ChangedSince_IsRefusedAndChangesNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var first = await MoveAsync(nursery, (await ReserveAsync(nursery)).Id, "C1");
        await MoveAsync(nursery, await OnlyIdAsync(nursery), "D1");
        var before = await PlacesAsync(nursery);

        await Assert.ThrowsAsync<GroundHasMoved>(() => nursery.Get<UndoReplan>().HandleAsync(first.ChangeId!.Value, nursery.HeadGrower));

        Assert.Equal(before, await PlacesAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_OldPlaceTakenSince_IsRefusedAndChangesNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var moved = await MoveAsync(nursery, (await ReserveAsync(nursery)).Id, "C1");
        await ReserveAsync(nursery);
        var before = await PlacesAsync(nursery);

        await Assert.ThrowsAsync<SpaceTaken>(() => nursery.Get<UndoReplan>().HandleAsync(moved.ChangeId!.Value, nursery.HeadGrower));

        Assert.Equal(before, await PlacesAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_NextDay_ThePastIsFixed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var moved = await MoveAsync(nursery, (await ReserveAsync(nursery)).Id, "C1");
        nursery.Clock.Advance(TimeSpan.FromDays(1));

        await Assert.ThrowsAsync<PastIsFixed>(() => nursery.Get<UndoReplan>().HandleAsync(moved.ChangeId!.Value, nursery.HeadGrower));
    }

    [Fact]
    public async Task HandleAsync_OfAnotherSite_IsNotFound()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var other = await TestNursery.OpenAsync(database);
        var moved = await MoveAsync(nursery, (await ReserveAsync(nursery)).Id, "C1");

        await Assert.ThrowsAsync<NotFound>(() => other.Get<UndoReplan>().HandleAsync(moved.ChangeId!.Value, other.HeadGrower));
    }

    private static async Task<ReservedSpaces> ReserveAsync(TestNursery nursery)
    {
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 6);
        return await nursery.ReserveAsync(batch, "W1", 1, nursery.Today, nursery.Today.PlusDays(20));
    }

    private static Task<MovedReservation> MoveAsync(TestNursery nursery, Guid id, string bench, SpaceRun? trays = null) =>
        nursery.Get<MoveTrays>().HandleAsync(new MoveTraysRequest(id, bench, null, trays), nursery.HeadGrower);

    private static async Task<Guid> OnlyIdAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        return (await rows.Reservations.SingleAsync(row => row.SiteId == nursery.At.Site.Id)).Id.Value;
    }

    private static Task<PlacedTrays> PlacesAsync(TestNursery nursery) => PlacedTrays.ReadAsync(nursery);
}
