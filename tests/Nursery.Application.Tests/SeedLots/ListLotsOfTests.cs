using Nursery.Application.SeedLots;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.SeedLots;

public sealed class ListLotsOfTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task List_LotsOfAVariety_StockFirstThenLabelGermination()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using (var rows = await nursery.DatabaseAsync())
        {
            var retired = nursery.NewLot(nursery.Pepper, $"R-{nursery.Pepper.Code}", 0.85m, 10);
            retired.RetiredOn = nursery.Today;
            rows.AddRange(nursery.NewLot(nursery.Pepper, $"E-{nursery.Pepper.Code}", 0.99m, 0), retired);
            await rows.SaveChangesAsync();
        }

        var lots = await nursery.Get<ListLotsOf>().HandleAsync(nursery.Pepper.Code, nursery.Staff);

        Assert.Equal(
            [$"R-{nursery.Pepper.Code}", nursery.PepperLot.Code, $"E-{nursery.Pepper.Code}"], lots.Select(lot => lot.Code));
        Assert.Equal([true, false, false], lots.Select(lot => lot.Retired));
        Assert.Equal(100_000, lots[1].StockSeeds);
        Assert.Empty(await nursery.Get<ListLotsOf>().HandleAsync("none", nursery.Staff));
    }
}
