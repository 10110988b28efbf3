using Bunit;
using Microsoft.AspNetCore.Components.Forms;
using Nursery.Application;
using Nursery.Application.Orders;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Orders;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class OrderImportTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Choose_WrongLines_ListsEachAndStoresNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var import = pages.Render<OrderImport>();

        Choose(import, $"O-1,Farm,{nursery.Pepper.Code},100,2026-06-01", "O-1,Farm,NONE,100,2026-06-01", $"O-2,Farm,{nursery.Pepper.Code},0,2026-02-30");

        import.WaitForElement("table");
        var rows = import.FindAll("tbody tr").Select(row => row.Children.Select(cell => cell.TextContent.Trim()).ToArray()).ToList();
        Assert.Equal(3, rows.Count);
        Assert.Equal(["3", "variety", "NONE", "the code of a variety in the list of varieties"], rows[0]);
        Assert.Equal(["4", "plants", "0", "a whole number, 1–1,000,000"], rows[1]);
        Assert.Equal(["4", "ready_on", "2026-02-30"], rows[2][..3]);
        Assert.DoesNotContain(import.FindAll("button"), button => button.TextContent.StartsWith("Import", StringComparison.Ordinal));
        Assert.Empty((await nursery.Get<ListOrderLines>().HandleAsync(Paging.All, nursery.Manager)).Items);
    }

    [Fact]
    public async Task Import_GoodFile_StoresOnlyAfterTheButtonAndOnce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var import = pages.Render<OrderImport>();
        var line = $"O-1,Farm,{nursery.Pepper.Code},100,2026-06-01";

        Choose(import, line);
        import.WaitForElement(".said");
        Assert.Empty((await nursery.Get<ListOrderLines>().HandleAsync(Paging.All, nursery.Manager)).Items);

        import.FindAll("button").Single(button => button.TextContent == "Import 1 order line").Click();
        import.WaitForAssertion(() => Assert.Contains("1 order line of orders.csv imported", import.Find(".said").TextContent, StringComparison.Ordinal));
        Assert.Single((await nursery.Get<ListOrderLines>().HandleAsync(Paging.All, nursery.Manager)).Items);

        Choose(import, line);
        import.WaitForAssertion(() => Assert.Contains("Nothing new", import.Find(".said").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Choose_NotOurCsv_SaysWhatTheFirstLineMustBe()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var import = pages.Render<OrderImport>();

        import.FindComponent<InputFile>().UploadFiles(InputFileContent.CreateFromText("a,b\n1,2\n", "orders.csv"));

        var problem = import.WaitForElement("[role=alert]");
        Assert.Contains("it must be: order,customer,variety,plants,ready_on", problem.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_NoOrders_SaysSoAndStaffMayNotImport()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);

        var page = pages.Render<OrdersPage>();

        Assert.Contains("no order lines yet", page.WaitForElement(".empty").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("button"));
    }

    private static void Choose(IRenderedComponent<OrderImport> import, params string[] lines) =>
        import.FindComponent<InputFile>().UploadFiles(
            InputFileContent.CreateFromBinary(NurserySteps.OrderFile(lines), "orders.csv"));
}
