using Microsoft.EntityFrameworkCore;
using Nursery.Application.Labour;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Labour;

public sealed class ShowLabourTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_OneSowing_IsItsMinutesOnItsDayAgainstTheAssumedHands()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 6, inDays: 2);

        var labour = await nursery.Get<ShowLabour>().HandleAsync(nursery.HeadGrower);

        // 184 seconds a tray to fill, sow, set and carry, and twice 14 to water the first time. 2 March 2026 is a Monday.
        Assert.True(labour.HandsAreAssumed);
        Assert.Equal(14, labour.Days.Count);
        Assert.Equal([720, 720, 720, 720, 720, 240, 120], labour.Days.Take(7).Select(day => day.AvailableMinutes));
        Assert.Equal(0, labour.Days[0].PlannedMinutes);
        Assert.Equal(
            [new LabourOfKind(TaskKind.Sow, 6 * 184m / 60), new LabourOfKind(TaskKind.FirstWatering, 6 * 28m / 60)], labour.Days[2].Kinds);
    }

    [Fact]
    public async Task HandleAsync_FewHands_SaysTooMuch()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 6);
        await using (var rows = await nursery.DatabaseAsync())
        {
            var site = await rows.Sites.SingleAsync(row => row.Id == nursery.At.Site.Id);
            (site.Hands, site.HandMinutes) = ([1, 0, 1, 1, 1, 1, 1], [20, 20, 20, 20, 20, 20, 20]);
            await rows.SaveChangesAsync();
        }

        var labour = await nursery.Get<ShowLabour>().HandleAsync(nursery.HeadGrower);

        Assert.False(labour.HandsAreAssumed);
        Assert.True(labour.Days[0].IsTooMuch);
        Assert.Equal((0, false), (labour.Days[1].AvailableMinutes, labour.Days[1].IsTooMuch));
    }
}
