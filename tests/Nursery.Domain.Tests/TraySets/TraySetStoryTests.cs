using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;
using Nursery.Domain.Tests.Ledger;
using Nursery.Domain.TraySets;
using Xunit;
using static Nursery.Domain.Tests.Ledger.Entries;

namespace Nursery.Domain.Tests.TraySets;

public sealed class TraySetStoryTests
{
    [Fact]
    public void Fold_PlacedTogether_IsOneRow()
    {
        var row = Assert.Single(TraySetStory.Fold(Set(4), [At(0, Moved(BenchKind.Germination, 1, 4, 7))]));

        Assert.Equal((new SpaceRun(1, 4), new SpaceRun(7, 4), Day(0)), (row.Trays, row.Spaces!.Value, row.Since));
    }

    [Fact]
    public void Fold_MiddleTraysMoved_LeavesTheRestWithTheirOwnSpaces()
    {
        var rows = TraySetStory.Fold(
            Set(6), [At(0, Moved(BenchKind.Germination, 1, 6, 10)), At(48, Moved(BenchKind.Growing, 3, 2, 1))]);

        Assert.Equal(
            [(new SpaceRun(1, 2), new SpaceRun(10, 2)), (new SpaceRun(3, 2), new SpaceRun(1, 2)), (new SpaceRun(5, 2), new SpaceRun(14, 2))],
            rows.Select(row => (row.Trays, row.Spaces!.Value)));
        Assert.Equal([Day(0), Day(2), Day(0)], rows.Select(row => row.Since));
    }

    [Fact]
    public void Fold_NobodySaidWhere_HasNoSpaces() =>
        Assert.Null(Assert.Single(TraySetStory.Fold(Set(2), [At(0, Moved(BenchKind.Growing))])).Spaces);

    [Fact]
    public void Fold_LastMoveUndone_StandsWhereItStood()
    {
        var move = Guid.CreateVersion7();

        var row = Assert.Single(TraySetStory.Fold(
            Set(2), [At(5, Undo(move)), At(1, Moved(BenchKind.Growing, space: 30), move), At(0, Moved(BenchKind.Germination, space: 3))]));

        Assert.Equal(new SpaceRun(3, 2), row.Spaces);
    }

    [Fact]
    public void Fold_WideTrays_TakeTheSpacesTheyNeed()
    {
        var set = Set(3);
        set.Footprint = 1.5m;

        Assert.Equal(new SpaceRun(4, 5), Assert.Single(TraySetStory.Fold(set, [At(0, Moved(BenchKind.Growing, 1, 3, 4))])).Spaces);
        Assert.Equal([2, 3, 5], new[] { 1, 2, 3 }.Select(set.SpacesFor));
    }

    [Fact]
    public void Fold_TraysTheSetDoesNotHave_AreLeftOut() =>
        Assert.Equal(new SpaceRun(1, 2), Assert.Single(TraySetStory.Fold(Set(2), [At(0, Moved(BenchKind.Growing, 1, 9))])).Trays);

    private static TraySet Set(int trays) => new()
    {
        Id = new Id<TraySet>(Guid.CreateVersion7()),
        SiteId = new Id<Site>(Guid.CreateVersion7()),
        Code = "PE-001-A-1",
        Trays = trays,
        CellsPerTray = 72,
    };
}
