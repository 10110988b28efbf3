using Bunit;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Start;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class StartPageTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Theory]
    [InlineData(Role.HeadGrower, true, true)]
    [InlineData(Role.Staff, true, false)]
    [InlineData(Role.Manager, false, false)]
    public async Task Page_Role_SeesItsOwnWork(Role role, bool round, bool plan)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, role);
        var batch = await nursery.PlanAsync(nursery.Pepper, inDays: 1);

        var page = pages.Render<StartPage>();

        page.WaitForAssertion(() => Assert.Contains("2 March 2026", page.Find("h1").TextContent, StringComparison.Ordinal));
        Assert.Equal(round, page.FindAll("a[href='/rounds']").Count > 0);
        Assert.Equal(plan, page.FindAll($"a[href='/batches/{batch.Id}']").Count > 0);
        Assert.Contains("Nothing sown in the last four weeks", page.Markup, StringComparison.Ordinal);
    }
}
