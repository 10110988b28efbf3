using Bunit;
using Npgsql;
using Nursery.Application.Reservations;
using Nursery.Domain.People;
using Nursery.Domain.Tasks;
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
        await nursery.SowAsync(await nursery.PlanAsync(nursery.Lettuce));

        var page = pages.Render<StartPage>();

        page.WaitForAssertion(() => Assert.Contains("2 March 2026", page.Find("h1").TextContent, StringComparison.Ordinal));
        Assert.Equal(round, page.FindAll("a[href='/rounds']").Count > 0);
        Assert.Equal(plan, page.FindAll($"a[href='/batches/{batch.Id}']").Count > 0);
        Assert.Contains("Nothing sown in the last four weeks", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_NothingEverSown_LeadsFromStepToStep()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await using var pages = await NurseryPages.OpenAsync(nursery, database, Role.HeadGrower);

        var page = pages.Render<StartPage>();
        Assert.Equal("→ Varieties and orders", page.WaitForElement(".way .now").TextContent.Trim());
        Assert.NotNull(page.WaitForElement("[aria-label='Import orders']"));

        await nursery.ImportAsync($"O-1,Farm,{nursery.Pepper.Code},100,2026-06-01");
        page = pages.Render<StartPage>();
        Assert.Equal("Make batches for the 1 open order line", page.WaitForElement("a[href='/orders?make=true']").TextContent);

        await nursery.PlanAsync(nursery.Pepper, inDays: 1);
        page = pages.Render<StartPage>();
        Assert.NotNull(page.WaitForElement("a[href='/batches?unplaced=true']"));

        await nursery.Get<PlaceByFirstFit>().HandleAsync(nursery.HeadGrower);
        page = pages.Render<StartPage>();
        Assert.Contains("1 of 1 placed", page.WaitForElement(".way").TextContent, StringComparison.Ordinal);
        Assert.NotNull(page.Find("a[href='/sowing']"));
    }

    [Fact]
    public async Task Page_DatabaseFailsAndComesBack_SaysSoWhileItLooksAndThenNoMore()
    {
        var own = new TestDatabase();
        await own.InitializeAsync();
        try
        {
            await using var nursery = await TestNursery.OpenAsync(own);
            await using var pages = await NurseryPages.OpenAsync(nursery, own, Role.Staff);
            var batch = await nursery.PlanAsync(nursery.Pepper);
            await nursery.SowAsync(batch);
            var page = pages.Render<StartPage>();
            Assert.Contains("1 of", page.WaitForElement(".progress").TextContent, StringComparison.Ordinal);

            await RunAsync(own, "REVOKE SELECT ON tasks FROM nursery_app");
            nursery.Clock.Advance(TimeSpan.FromSeconds(20));
            page.WaitForAssertion(() => Assert.Contains("what is shown may be old", page.Find("[role=alert]").TextContent, StringComparison.Ordinal));
            Assert.NotEmpty(page.FindAll(".progress"));

            await RunAsync(own, "GRANT SELECT ON tasks TO nursery_app");
            await nursery.DoAsync(batch.Id, TaskKind.FirstWatering);
            nursery.Clock.Advance(TimeSpan.FromSeconds(20));
            page.WaitForAssertion(() => Assert.Empty(page.FindAll("[role=alert]")));
            page.WaitForAssertion(() => Assert.Contains("2 of", page.Find(".progress").TextContent, StringComparison.Ordinal));
        }
        finally
        {
            await own.DisposeAsync();
        }
    }

    private static async Task RunAsync(TestDatabase own, string sql)
    {
        await using var source = NpgsqlDataSource.Create(own.OwnerConnectionString);
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync();
    }
}
