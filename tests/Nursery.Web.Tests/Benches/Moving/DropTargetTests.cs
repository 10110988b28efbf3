using Nursery.Domain.Sites;
using Nursery.Web.Components.Pages.Benches;
using Nursery.Web.Components.Pages.Benches.Moving;
using Xunit;

namespace Nursery.Web.Tests.Benches.Moving;

public sealed class DropTargetTests
{
    private static readonly Guid Reservation = Guid.CreateVersion7();

    // Bench 1A has 54 spaces, bench 1B 9; the trays hold 4–9 of 1A.
    private static readonly MapLayout Layout = MapLayout.Of(
        SampleHouse.House(
            1800, 900,
            SampleHouse.Bench("1A", 90, 101, 500, 3, 54, [SampleHouse.Trays("EG-031-K-1", 4, 6) with { ReservationId = Reservation }]),
            SampleHouse.Bench("1B", 700, 101, 84, 3, 9, [])),
        Units.UsCustomary);

    [Theory]
    [InlineData(4, 20, 20)]
    [InlineData(6, 20, 18)]
    [InlineData(9, 1, 1)]
    [InlineData(4, 54, 49)]
    public void Under_SpaceOfTheSameBench_KeepsTheSpaceTakenHoldOfUnderThePointer(int grabbed, int over, int first) =>
        Assert.Equal(("1A", first), Place(At(0, grabbed), At(0, over)));

    [Fact]
    public void Under_SmallerBench_StaysOnIt() => Assert.Equal(("1B", 4), Place(At(0, 4), At(1, 9)));

    [Fact]
    public void Under_Aisle_IsNowhere() => Assert.Null(Place(At(0, 4), (5, 5)));

    [Fact]
    public void Of_TraysNoLongerThere_IsNothing() =>
        Assert.Null(DraggedTrays.Of(Layout, Guid.CreateVersion7(), At(0, 4).X, At(0, 4).Y));

    [Fact]
    public void Under_AnotherHouse_LaysTheTraysInHandOnItsBench()
    {
        var other = MapLayout.Of(SampleHouse.House(1800, 900, SampleHouse.Bench("2A", 90, 101, 500, 3, 54, [])), Units.UsCustomary);
        var dragged = DraggedTrays.Of(Layout, Reservation, At(0, 6).X, At(0, 6).Y)!;
        var over = other.Benches[0].Geometry.Space(20);

        var target = DropTarget.Under(other, dragged, over.CenterX, over.CenterY)!;

        Assert.Equal(("2A", 18, Reservation), (target.BenchCode, target.FirstSpace, target.Trays.ReservationId!.Value));
    }

    private static (string Bench, int First)? Place((double X, double Y) grab, (double X, double Y) at) =>
        DropTarget.Under(Layout, DraggedTrays.Of(Layout, Reservation, grab.X, grab.Y)!, at.X, at.Y) is { } target ? (target.BenchCode, target.FirstSpace) : null;

    private static (double X, double Y) At(int bench, int space)
    {
        var box = Layout.Benches[bench].Geometry.Space(space);
        return (box.CenterX, box.CenterY);
    }
}
