using System.Text;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Orders;
using Xunit;

namespace Nursery.Application.Tests.Setup;

public sealed class BroughtVarietiesTests
{
    private const string Header = "order,customer,variety,plants,ready_on,crop,variety_name\n";

    [Fact]
    public async Task Import_UnknownVarieties_AddsThemWithStartingCropsOnce()
    {
        await using var nursery = await EmptyNursery.OpenAsync();
        const string sheet = Header
            + "O-1,Sallow End,TO-HOLM,180,2026-06-01,tomato,Holm Red\n"
            + "O-1,Sallow End,PE-LANT,90,2026-06-01,PE,Lantern\n"
            + "O-2,Brook Lane,TO-HOLM,60,2026-06-08,TO,Holm Red\n";

        var dry = await ImportAsync(nursery, sheet, dryRun: true);
        Assert.Equal((3, 3, 2), (dry.Rows, dry.Created, dry.NewVarieties));
        Assert.Equal(["PE", "TO"], dry.StartingCrops);
        Assert.Equal((0, 0, 0), await CountAsync(nursery));

        var done = await ImportAsync(nursery, sheet);
        Assert.Empty(done.Errors);
        Assert.Equal((2, 2, 3), await CountAsync(nursery));
        var tomato = await nursery.RowAsync("varieties", "TO-HOLM");
        Assert.Equal(("TO", "Holm Red"), (tomato.Fields["crop"], tomato.Fields["name"]));
        await using (var database = await nursery.DatabaseAsync())
        {
            var kinds = (await database.Ledger.Select(entry => entry.Value).ToListAsync()).OfType<Domain.Ledger.Changed>()
                .Select(change => change.What).Where(what => what is "crop" or "variety").Order(StringComparer.Ordinal);
            Assert.Equal(["crop", "crop", "variety", "variety"], kinds);
        }

        var again = await ImportAsync(nursery, sheet);
        Assert.Equal((3, 0, 0), (again.Rows, again.Created, again.NewVarieties));
        Assert.Equal((2, 2, 3), await CountAsync(nursery));
    }

    [Fact]
    public async Task Import_LinesThatDisagree_AreAllToldAndNothingIsStored()
    {
        await using var nursery = await EmptyNursery.OpenAsync();

        var result = await ImportAsync(nursery, Header
            + "O-1,Sallow End,TO-HOLM,180,2026-06-01,Tomato,Holm Red\n"
            + "O-2,Sallow End,TO-HOLM,180,2026-06-01,Pepper,Holm Red\n"
            + "O-3,Sallow End,TO-HOLM,180,2026-06-01,TO,Holm Yellow\n"
            + "O-4,Sallow End,XX-NONE,180,2026-06-01,Moonflower of nowhere,None\n");

        Assert.Equal(
            [(3, "crop"), (4, "variety_name"), (5, "crop")], result.Errors.Select(error => (error.Line!.Value, error.Field)));
        Assert.Contains("starting profiles", result.Errors[2].Allowed, StringComparison.Ordinal);
        Assert.Equal((0, 0, 0), await CountAsync(nursery));
    }

    [Fact]
    public async Task Import_WithoutTheTwoColumns_AddsNoVariety()
    {
        await using var nursery = await EmptyNursery.OpenAsync();

        var result = await ImportAsync(nursery, "order,customer,variety,plants,ready_on\nO-1,Sallow End,TO-HOLM,180,2026-06-01\n");

        Assert.Equal("variety", Assert.Single(result.Errors).Field);
    }

    private static Task<ImportResult> ImportAsync(EmptyNursery nursery, string sheet, bool dryRun = false) =>
        nursery.Get<ImportOrders>().HandleAsync(Encoding.UTF8.GetBytes(sheet), dryRun, nursery.Administrator);

    private static async Task<(int Crops, int Varieties, int Lines)> CountAsync(EmptyNursery nursery)
    {
        await using var database = await nursery.DatabaseAsync();
        return (await database.Crops.CountAsync(), await database.Varieties.CountAsync(), await database.OrderLines.CountAsync());
    }
}
