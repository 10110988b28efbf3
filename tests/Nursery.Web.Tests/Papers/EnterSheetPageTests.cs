using Bunit;
using Nursery.Application.Papers;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Papers;
using Nursery.Web.Tests.Pages;
using Xunit;

namespace Nursery.Web.Tests.Papers;

public sealed class EnterSheetPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Page_LinesTypedAndRecorded_AreDone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        var batch = await nursery.PlanAsync(nursery.Pepper);
        await nursery.PlanAsync(nursery.Lettuce);
        await nursery.Get<PrintRoundSheet>().HandleAsync(null, null, null, nursery.Staff);
        var page = pages.Render<EnterSheetPage>();
        await page.WaitForElement("#sheet").ChangeAsync("1");
        await page.Find("form").SubmitAsync();
        page.WaitForElement("#line");
        var line = (await nursery.Get<ShowRoundSheet>().HandleAsync(1, nursery.Staff)).Lines.Single(row => row.Code == batch.Code).Line;

        await TypeAsync(page, "99");
        Assert.Contains("The sheet has the lines 1–2", page.Markup, StringComparison.Ordinal);
        await TypeAsync(page, "1-2");
        Assert.Equal(2, page.FindAll("table tbody tr").Count);
        await TypeAsync(page, $"{3 - line} x");
        Assert.Equal(batch.Code, Assert.Single(page.FindAll("table tbody tr .code")).TextContent);
        await TypeAsync(page, "");

        page.WaitForAssertion(() => Assert.Contains("1 line recorded", page.Markup, StringComparison.Ordinal));
        Assert.Empty(page.FindAll("table tbody tr"));
        Assert.Equal(TaskState.Done, (await nursery.TaskAsync(batch.Id, TaskKind.Sow)).State);
    }

    [Fact]
    public async Task Page_SheetThatIsNone_SaysSo()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.Staff);
        var page = pages.Render<EnterSheetPage>();
        await page.WaitForElement("#sheet").ChangeAsync("7");

        await page.Find("form").SubmitAsync();

        page.WaitForAssertion(() => Assert.Contains("There is no round sheet '7' on this site", page.Markup, StringComparison.Ordinal));
    }

    private static async Task TypeAsync(IRenderedComponent<EnterSheetPage> page, string text)
    {
        await page.Find("#line").ChangeAsync(text);
        await page.FindAll("form")[1].SubmitAsync();
    }
}
