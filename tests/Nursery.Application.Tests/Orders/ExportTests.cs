using System.Text;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Batches;
using Nursery.Application.Orders;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Orders;

/// <summary>Files for a spreadsheet: RFC 4180 section 2 (CRLF after each line, quotes doubled inside quotes).</summary>
public sealed class ExportTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task ExportOrders_ImportedAgain_AddsNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (ready, later) = (nursery.Today.PlusDays(80), nursery.Today.PlusDays(90));
        string[] lines =
        [
            FormattableString.Invariant($"A-1,\"Brook, \"\"Upper\"\"\",{nursery.Lettuce.Code},40,{ready:uuuu-MM-dd},{ready:uuuu-MM-dd} 25; {later:uuuu-MM-dd} 15,{nursery.Tomato.Code}"),
            FormattableString.Invariant($"A-2,Plain Garden,{nursery.Pepper.Code},120,{later:uuuu-MM-dd},,"),
        ];
        const string Head = "order,customer,variety,plants,ready_on,deliveries,substitutes\r\n";
        await nursery.Get<ImportOrders>().HandleAsync(Encoding.UTF8.GetBytes(Head + string.Join("\r\n", lines)), false, nursery.HeadGrower);

        var file = await nursery.Get<ExportOrders>().HandleAsync(nursery.Manager);

        Assert.Equal(Head + string.Join("\r\n", lines) + "\r\n", Encoding.UTF8.GetString(file));
        var again = await nursery.Get<ImportOrders>().HandleAsync(file, false, nursery.HeadGrower);
        Assert.Equal((2, 0, 0), (again.Rows, again.Created, again.Errors.Count));
    }

    [Fact]
    public async Task ExportBatches_Batch_HasALineAndNoFormula()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using (var rows = await nursery.DatabaseAsync())
        {
            await rows.Varieties.Where(row => row.Id == nursery.Tomato.Id).ExecuteUpdateAsync(row => row.SetProperty(variety => variety.Name, "=1+1"));
        }

        var planned = await nursery.PlanAsync(nursery.Tomato, trays: 3);

        var lines = Encoding.UTF8.GetString(await nursery.Get<ExportBatches>().HandleAsync(nursery.Manager)).Split("\r\n");

        Assert.Equal(3, lines.Length);
        Assert.StartsWith("batch,tray_set,stage,crop,variety,", lines[0], StringComparison.Ordinal);
        Assert.StartsWith(
            $"{planned.Code},{planned.TraySetCode},planned,Tomato,{nursery.Tomato.Code},'=1+1,{nursery.TomatoLot.Code},3,72,1,", lines[1], StringComparison.Ordinal);
        Assert.Equal("", lines[2]);
    }
}
