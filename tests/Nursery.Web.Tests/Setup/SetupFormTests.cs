using Bunit;
using Microsoft.EntityFrameworkCore;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Setup;
using Nursery.Web.Tests.Pages;
using Xunit;

namespace Nursery.Web.Tests.Setup;

/// <summary>A row opened from its list, changed and saved, over the real lists; alone and with somebody else at it.</summary>
public sealed class SetupFormTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Save_ChangedRow_StoresItSaysSoAndClosesTheForm()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var list = OpenRow(pages, "houses", "H1");
        Assert.Equal("House 1", Field(list, "Name").GetAttribute("value"));

        Field(list, "Name").Change("Long house");
        await list.Find("form").SubmitAsync();

        list.WaitForAssertion(() => Assert.Equal("H1 is changed.", list.Find("[role=status]").TextContent.Trim()));
        Assert.Empty(list.FindAll("form"));
        Assert.Contains("Long house", list.Find("table.list").TextContent, StringComparison.Ordinal);
        Assert.Equal("Long house", await NameAsync(nursery));
    }

    [Fact]
    public async Task Save_UnchangedRow_SaysItIsAsItWas()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var list = OpenRow(pages, "houses", "H1");
        var before = await nursery.LedgerCountAsync();

        await list.Find("form").SubmitAsync();

        list.WaitForAssertion(() => Assert.Equal("H1 is as it was.", list.Find("[role=status]").TextContent.Trim()));
        Assert.Equal(before, await nursery.LedgerCountAsync());
    }

    [Fact]
    public async Task Save_ValueNotAllowed_StandsBesideItsFieldAndStoresNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var list = OpenRow(pages, "houses", "H1");

        Field(list, "Name").Change("");
        Field(list, "Place in the round").Change("0");
        await list.Find("form").SubmitAsync();

        list.WaitForAssertion(() => Assert.Contains("2 values must be put right", list.Find("[role=alert]").TextContent, StringComparison.Ordinal));
        Assert.Equal("true", Field(list, "Name").GetAttribute("aria-invalid"));
        Assert.Equal("true", Field(list, "Place in the round").GetAttribute("aria-invalid"));
        Assert.Equal("0", Field(list, "Place in the round").GetAttribute("value"));
        Assert.Equal("House 1", await NameAsync(nursery));
    }

    [Fact]
    public async Task Save_AfterSomeoneElse_ShowsBothValuesThenMineStandWhenSavedAgain()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var list = OpenRow(pages, "houses", "H1");
        await RenameAsync(nursery, "East house");

        Field(list, "Name").Change("West house");
        await list.Find("form").SubmitAsync();

        list.WaitForAssertion(() => Assert.Equal(
            ["Name", "West house", "East house"], list.FindAll("[role=alert] td").Select(cell => cell.TextContent)));
        Assert.Equal("East house", await NameAsync(nursery));
        Assert.Equal("West house", Field(list, "Name").GetAttribute("value"));

        await list.Find("form").SubmitAsync();
        list.WaitForAssertion(() => Assert.Equal("H1 is changed.", list.Find("[role=status]").TextContent.Trim()));
        Assert.Equal("West house", await NameAsync(nursery));
    }

    [Fact]
    public async Task Save_OvertakenOnceMore_IsToldOnceMore()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var list = OpenRow(pages, "houses", "H1");
        await RenameAsync(nursery, "East house");
        Field(list, "Name").Change("West house");
        await list.Find("form").SubmitAsync();
        list.WaitForElement("[role=alert] td");
        await RenameAsync(nursery, "North house");

        await list.Find("form").SubmitAsync();

        list.WaitForAssertion(() => Assert.Equal(
            ["Name", "West house", "North house"], list.FindAll("[role=alert] td").Select(cell => cell.TextContent)));
        Assert.Equal("North house", await NameAsync(nursery));
    }

    [Fact]
    public async Task KeepTheirs_AfterAConflict_ClosesAndStoresNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var list = OpenRow(pages, "houses", "H1");
        await RenameAsync(nursery, "East house");
        Field(list, "Name").Change("West house");
        await list.Find("form").SubmitAsync();

        list.WaitForElement("[role=alert] td");
        list.FindAll("form button").Single(button => button.TextContent == "Keep theirs").Click();

        Assert.Empty(list.FindAll("form"));
        Assert.Equal("East house", await NameAsync(nursery));
    }

    private static IRenderedComponent<ListPage> OpenRow(NurseryPages pages, string list, string key)
    {
        var page = pages.Render<ListPage>(parameters => parameters.Add(p => p.List, list));
        page.WaitForElement("table.list tbody button");
        page.FindAll("table.list tbody button").Single(button => button.TextContent.Trim() == key).Click();
        page.WaitForElement("form");
        return page;
    }

    private static AngleSharp.Dom.IElement Field(IRenderedComponent<ListPage> page, string label) =>
        page.Find("#" + page.FindAll("form label").Single(row => row.TextContent == label).GetAttribute("for"));

    private static async Task RenameAsync(TestNursery nursery, string name)
    {
        var shown = await nursery.Get<ShowSetupList>().HandleAsync("houses", nursery.Administrator);
        var row = shown.Rows.Single(house => house.Key == "H1");
        var fields = row.Fields.ToDictionary(field => field.Key, field => field.Value);
        fields["name"] = name;
        await nursery.Get<SaveSetupRow>().HandleAsync(new SaveRowRequest("houses", row.Id, row.Version, fields, null), nursery.Administrator);
    }

    private static async Task<string> NameAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        return await rows.Houses.Where(house => house.SiteId == nursery.At.Site.Id && house.Code == "H1").Select(house => house.Name).SingleAsync();
    }
}
