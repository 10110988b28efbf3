using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;
using Xunit;
using static Nursery.Domain.Tests.Tasks.RuleFacts;

namespace Nursery.Domain.Tests.Tasks.Rules;

/// <summary>Covered trays on heat about every other day, bare ones daily: common practice, no source.</summary>
public sealed class WateringRulesTests
{
    [Fact]
    public void FirstWatering_Sown_IsThatDayToRunThrough()
    {
        var task = Find(Of(Sown()), TaskKind.FirstWatering)!;

        Assert.Equal((Day0, 1), (task.DueOn, task.Occurrence));
        Assert.Equal("Sown 2 March, not watered yet: water 2 trays until it runs through; germination starts with it", task.Why);
        Assert.Null(Find(Of(Sown()), TaskKind.Water));
    }

    [Fact]
    public void FirstWatering_Watered_IsOver() =>
        Assert.Null(Find(Of(Sown() with { WateredOn = Day(0) }), TaskKind.FirstWatering));

    [Theory]
    [InlineData(false, 2, "about every 2 days")]
    [InlineData(true, 1, "every day")]
    public void Water_ByTheCalendar_ComesAgain(bool offHeat, int days, string why)
    {
        var state = Sown() with { WateredOn = Day(3), OffHeatOn = offHeat ? Day(3) : null };

        var water = Find(Of(state, next: new Dictionary<TaskKind, int> { [TaskKind.Water] = 5 }), TaskKind.Water)!;

        Assert.Equal((Day(3 + days), 5), (water.DueOn, water.Occurrence));
        Assert.StartsWith("Last watered 5 March", water.Why, StringComparison.Ordinal);
        Assert.EndsWith(why, water.Why, StringComparison.Ordinal);
    }

    /// <summary>Watered on day 3 on heat, so due on day 5 by the calendar.</summary>
    [Theory]
    [InlineData(SurfaceState.Dry, 4, 4, "seen dry 6 March")]
    [InlineData(SurfaceState.Dry, 7, 5, "seen dry 9 March")]
    [InlineData(SurfaceState.Wet, 4, 5, "not before 7 March")]
    [InlineData(SurfaceState.Wet, 5, 6, "not before 8 March; wet mix invites damping-off")]
    [InlineData(SurfaceState.Damp, 5, 5, "seen damp 7 March")]
    [InlineData(SurfaceState.Dry, 3, 5, "about every 2 days")]
    [InlineData(SurfaceState.Wet, 3, 5, "about every 2 days")]
    public void Water_SurfaceSeen_CorrectsTheCalendar(SurfaceState seen, int seenOn, int due, string why)
    {
        var water = Find(Of(Sown() with { WateredOn = Day(3) }, surface: new SurfaceMark(seen, Day(seenOn))), TaskKind.Water)!;

        Assert.Equal(Day(due), water.DueOn);
        Assert.Contains(why, water.Why, StringComparison.Ordinal);
    }
}
