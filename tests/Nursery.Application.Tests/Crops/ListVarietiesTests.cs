using Microsoft.EntityFrameworkCore;
using Nursery.Application.Crops;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Crops;

public sealed class ListVarietiesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task List_VarietiesInUse_ByCropWithTheProfilesNumbers()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var retiredId = nursery.Tomato.Id;
        await using (var rows = await nursery.DatabaseAsync())
        {
            (await rows.Varieties.SingleAsync(variety => variety.Id == retiredId)).RetiredOn = nursery.Today;
            await rows.SaveChangesAsync();
        }

        var varieties = await nursery.Get<ListVarieties>().HandleAsync(nursery.Staff);

        Assert.Equal([nursery.Lettuce.Code, nursery.Pepper.Code], varieties.Select(variety => variety.Code));
        var pepper = varieties[1];
        Assert.Equal(("PE", 72, 2, 56, 10), (pepper.CropCode, pepper.CellsPerTray, pepper.SeedsPerCell, pepper.DaysToReady, pepper.PlannedHeatDays));
    }
}
