using Bunit;
using Nursery.Domain.People;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Components.Pages.Orders;
using Xunit;

namespace Nursery.Web.Tests.Pages;

public sealed class MakeBatchesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Make_OneInTimeOneLate_ShowsTheBatchAndWhyTheOtherIsNot()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);
        await nursery.ImportAsync(
            $"O-1,Farm,{nursery.Pepper.Code},100,2026-06-01", $"O-2,Farm,{nursery.Pepper.Code},100,2026-03-20", $"O-3,Farm,{nursery.Pepper.Code},100,2027-06-01");
        var page = pages.Render<OrdersPage>();
        page.WaitForElement("table");
        page.FindAll("button").Single(button => button.TextContent == "Make batches").Click();

        page.WaitForElement("#until").Change("2026-06-30");
        const string make = "Make batches for the 2 open lines up to then";
        page.WaitForAssertion(() => Assert.Contains(page.FindAll("button"), button => button.TextContent == make));
        page.FindAll("button").Single(button => button.TextContent == make).Click();

        page.WaitForAssertion(() => Assert.Contains("1 batch made; for 1 line none could be.", page.Find(".said").TextContent, StringComparison.Ordinal));
        Assert.Contains("Should have been sown", page.FindAll("table")[0].TextContent, StringComparison.Ordinal);

        // 1 June less 8 weeks of the pepper's profile, two days for heat that is not the best (ChainTests of the use cases) and the site's 7 days.
        Assert.Contains("28 March 2026", page.FindAll("table")[1].TextContent, StringComparison.Ordinal);
        page.WaitForAssertion(() => Assert.Contains("3 order lines, 2 with open plants", page.Markup, StringComparison.Ordinal));
    }
}
