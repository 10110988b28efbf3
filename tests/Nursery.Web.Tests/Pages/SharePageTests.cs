using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Batches;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Batches;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class SharePageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Share_TwoChosen_ShowsRowsAndBandsAndThenTheBatch()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var tomato = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 4);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 1, inDays: 4);
        var late = await nursery.PlanAsync(nursery.Tomato, trays: 1, inDays: 30);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        var page = pages.Render<SharePage>();
        page.WaitForElement("tbody tr");

        Tick(page, tomato.Code);
        page.WaitForAssertion(() => Assert.Contains("chosen", Row(page, tomato.Code), StringComparison.Ordinal));
        Assert.Contains("yes, the bands meet", Row(page, pepper.Code), StringComparison.Ordinal);
        Assert.Contains("no: ", Row(page, late.Code), StringComparison.Ordinal);
        Tick(page, pepper.Code);
        page.WaitForElement("section.tag");
        page.WaitForElement($"input[aria-label='Rows of {tomato.Code}']");
        await page.InvokeAsync(() => page.Find($"input[aria-label='Rows of {tomato.Code}']").Change("5"));
        page.WaitForAssertion(() => Assert.Contains("cell rows 1–5", page.Markup, StringComparison.Ordinal));
        page.WaitForElement($"input[aria-label='Rows of {pepper.Code}']");
        await page.InvokeAsync(() => page.Find($"input[aria-label='Rows of {pepper.Code}']").Change("7"));
        page.WaitForAssertion(() => Assert.Contains("1 shared tray of 72 cells", page.Markup, StringComparison.Ordinal));
        Assert.Contains("<td>cell rows 6–12</td>", page.Markup, StringComparison.Ordinal);

        // 65–95 °F of the pepper within the tomato's 50–95 °F.
        Assert.Contains("65 °F to 95 °F", page.Find("section.tag").TextContent, StringComparison.Ordinal);
        Assert.Contains("1 tray: 1 instead of 2", page.Find("section.tag").TextContent, StringComparison.Ordinal);
        page.FindAll("button").Single(button => button.TextContent == "Share these trays").Click();
        var navigation = pages.Services.GetRequiredService<NavigationManager>();
        page.WaitForAssertion(() => Assert.EndsWith($"/batches/{tomato.Id}", navigation.Uri, StringComparison.Ordinal));
        Assert.Equal("cell rows 6–12", (await nursery.Get<ShowBatch>().HandleAsync(pepper.Id, nursery.HeadGrower)).Batch.Part);
    }

    private static void Tick(IRenderedComponent<SharePage> page, string code) =>
        page.FindAll("input[type=checkbox]").Single(box => box.GetAttribute("aria-label")!.StartsWith(code, StringComparison.Ordinal)).Change(true);

    private static string Row(IRenderedComponent<SharePage> page, string code) =>
        page.FindAll("tbody tr").First(row => row.TextContent.Contains(code, StringComparison.Ordinal)).TextContent;
}
