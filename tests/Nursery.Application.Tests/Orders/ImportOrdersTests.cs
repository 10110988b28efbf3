using System.Text;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Orders;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Orders;

public sealed class ImportOrdersTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task HandleAsync_DryRun_SaysWhatItWouldAddAndAddsNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var file = NurserySteps.OrderFile(Line(nursery, "A-1"), Line(nursery, "A-2"));

        var tried = await nursery.Get<ImportOrders>().HandleAsync(file, true, nursery.HeadGrower);

        Assert.Equal((true, 2, 2), (tried.DryRun, tried.Rows, tried.Created));
        Assert.Equal(0, await LinesAsync(nursery));
        Assert.Equal(2, (await nursery.Get<ImportOrders>().HandleAsync(file, false, nursery.HeadGrower)).Created);
        Assert.Equal(2, await LinesAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_SameFileTwice_AddsNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync(Line(nursery, "A-1"), Line(nursery, "A-2"));
        var ledger = await nursery.LedgerCountAsync();

        var again = await nursery.ImportAsync(Line(nursery, "A-1"), Line(nursery, "A-2"));

        Assert.Equal((2, 0, 0), (again.Rows, again.Created, again.Errors.Count));
        Assert.Equal(2, await LinesAsync(nursery));
        Assert.Equal(ledger, await nursery.LedgerCountAsync());
    }

    [Fact]
    public async Task HandleAsync_SameNewFileFromTenAtOnce_AddsItOnce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var results = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => nursery.ImportAsync(Line(nursery, "A-1"), Line(nursery, "A-2"))));

        Assert.Equal(2, results.Sum(result => result.Created));
        Assert.Equal(2, await LinesAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_OneLineWrong_AddsNone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var result = await nursery.ImportAsync(Line(nursery, "A-1"), "A-2,Farm,no-such,10,2026-06-01");

        Assert.Equal((2, 0), (result.Rows, result.Created));
        var error = Assert.Single(result.Errors);
        Assert.Equal(("variety", "no-such", 3), (error.Field, error.Value, error.Line));
        Assert.Equal(0, await LinesAsync(nursery));
    }

    [Theory]
    [InlineData("A-1,Farm,{0},-5,2026-06-01", "plants", "-5")]
    [InlineData("A-1,Farm,{0},0,2026-06-01", "plants", "0")]
    [InlineData("A-1,Farm,{0},1.5,2026-06-01", "plants", "1.5")]
    [InlineData("A-1,Farm,{0},1000001,2026-06-01", "plants", "1000001")]
    [InlineData("A-1,Farm,{0},99999999999999,2026-06-01", "plants", "99999999999999")]
    [InlineData("A-1,Farm,{0},٥,2026-06-01", "plants", "٥")]
    [InlineData("A-1,Farm,{0},10,2026-02-30", "ready_on", "2026-02-30")]
    [InlineData("A-1,Farm,{0},10,06/01/2026", "ready_on", "06/01/2026")]
    [InlineData("A-1,Farm,{0},10,", "ready_on", "")]
    [InlineData("A-1,=HYPERLINK(1),{0},10,2026-06-01", "customer", "=HYPERLINK(1)")]
    [InlineData("+A-1,Farm,{0},10,2026-06-01", "order", "+A-1")]
    [InlineData("A-1,@SUM(A1),{0},10,2026-06-01", "customer", "@SUM(A1)")]
    [InlineData("A-1,Farm,{0},=1+1,2026-06-01", "plants", "=1+1")]
    [InlineData(",Farm,{0},10,2026-06-01", "order", "")]
    public async Task HandleAsync_ValueWrong_NamesLineFieldValueAndAllowed(string line, string field, string value)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var result = await nursery.ImportAsync(
            Line(nursery, "A-0"), line.Replace("{0}", nursery.Pepper.Code, StringComparison.Ordinal));

        var error = Assert.Single(result.Errors);
        Assert.Equal((field, value, 3), (error.Field, error.Value, error.Line));
        Assert.NotEmpty(error.Allowed);
        Assert.Equal(0, await LinesAsync(nursery));
    }

    [Theory]
    [InlineData("")]
    [InlineData("  \n\n")]
    [InlineData("order;customer;variety;plants;ready_on\nA;B;C;1;2026-06-01\n")]
    [InlineData("Order,customer,variety,plants,ready_on\n")]
    [InlineData("customer,order,variety,plants,ready_on\n")]
    [InlineData("or\"der,customer\",variety,plants,ready_on\n")]
    [InlineData("order,customer,variety,plants,ready_on\nA,\"open,PEP,1,2026-06-01\nB,b,PEP,1,2026-06-01\n")]
    [InlineData("order,customer,variety,plants,ready_on\nA,mid\"quote\",PEP,1,2026-06-01\n")]
    [InlineData("order,customer,variety,plants,ready_on\nA,B,PEP,1,2026-06-01,extra\n")]
    [InlineData("order,customer,variety,plants,ready_on\nA,B,PEP\n")]
    [InlineData("order,customer,variety,plants,ready_on\nA,B\0,PEP,1,2026-06-01\n")]
    public async Task HandleAsync_NotReadable_IsMalformed(string text)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        await Assert.ThrowsAsync<Malformed>(() => nursery.Get<ImportOrders>()
            .HandleAsync(Encoding.UTF8.GetBytes(text), false, nursery.HeadGrower));

        Assert.Equal(0, await LinesAsync(nursery));
    }

    [Fact]
    public async Task HandleAsync_Latin1_IsMalformedAndSaysWhere()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var file = Encoding.Latin1.GetBytes("order,customer,variety,plants,ready_on\nA,Café,PEP,1,2026-06-01\n");

        var refused = await Assert.ThrowsAsync<Malformed>(() => nursery.Get<ImportOrders>().HandleAsync(file, false, nursery.HeadGrower));

        Assert.Contains("UTF-8", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task HandleAsync_LineOfAMegabyte_IsTooLarge()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var file = NurserySteps.OrderFile($"A,{new string('x', 1_000_000)},PEP,1,2026-06-01");

        await Assert.ThrowsAsync<TooLarge>(() => nursery.Get<ImportOrders>().HandleAsync(file, false, nursery.HeadGrower));
    }

    [Fact]
    public async Task HandleAsync_QuotesByteOrderMarkAndCrLf_AreRead()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var text = "\uFEFForder,customer,variety,plants,ready_on\r\n\"A-1\",\"Field \"\"North\"\", Ltd\",\"" + nursery.Pepper.Code + "\",10,2026-06-01\r\n";
        await nursery.Get<ImportOrders>().HandleAsync(Encoding.UTF8.GetBytes(text), false, nursery.HeadGrower);

        var line = Assert.Single((await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Staff)).Items);
        Assert.Equal("Field \"North\", Ltd", line.Customer);
    }

    [Fact]
    public async Task HandleAsync_SameLineTwiceInAFile_IsAnErrorNamingTheOther()
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var error = Assert.Single((await nursery.ImportAsync(Line(nursery, "A-1"), Line(nursery, "A-1"))).Errors);

        Assert.Equal(("order", 3), (error.Field, error.Line));
        Assert.Contains("line 2", error.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public async Task HandleAsync_PlantsChanged_IsAnErrorAndChangesNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync(Line(nursery, "A-1"));

        var error = Assert.Single((await nursery.ImportAsync(Line(nursery, "A-1", plants: 11))).Errors);

        Assert.Equal(("plants", "11"), (error.Field, error.Value));
        Assert.Equal(10, (await nursery.Get<ListOrderLines>().HandleAsync(new Paging(), nursery.Staff)).Items[0].Plants);
    }

    [Fact]
    public async Task HandleAsync_OrderOfAnotherCustomer_IsAnError()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.ImportAsync(Line(nursery, "A-1"));

        var result = await nursery.ImportAsync($"A-1,Someone else,{nursery.Lettuce.Code},10,2026-06-01");

        Assert.Equal("customer", Assert.Single(result.Errors).Field);
    }

    [Fact]
    public async Task HandleAsync_FiftyThousandLines_AreAddedAndOneMoreIsTooMany()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var lines = Enumerable.Range(0, 50_000).Select(number =>
            $"B-{number / 5},Farm {number / 500},{nursery.Pepper.Code},{(number % 900) + 1},2026-{(number % 5) + 5:00}-01");
        var file = NurserySteps.OrderFile([.. lines]);

        var result = await nursery.Get<ImportOrders>().HandleAsync(file, false, nursery.HeadGrower);

        Assert.Equal((50_000, 50_000), (result.Rows, result.Created));
        Assert.Equal(50_000, await LinesAsync(nursery));
        Assert.Equal(0, (await nursery.Get<ImportOrders>().HandleAsync(file, false, nursery.HeadGrower)).Created);
        byte[] oneMore = [.. file, .. Encoding.UTF8.GetBytes($"C-1,Farm,{nursery.Pepper.Code},1,2026-06-01\n")];
        await Assert.ThrowsAsync<TooLarge>(() => nursery.Get<ImportOrders>().HandleAsync(oneMore, false, nursery.HeadGrower));
    }

    private static string Line(TestNursery nursery, string order, int plants = 10) =>
        $"{order},Invented Farm,{nursery.Pepper.Code},{plants},2026-06-01";

    private static async Task<int> LinesAsync(TestNursery nursery)
    {
        await using var open = await nursery.DatabaseAsync();
        return await open.OrderLines.CountAsync(line => line.SiteId == nursery.At.Site.Id);
    }
}
