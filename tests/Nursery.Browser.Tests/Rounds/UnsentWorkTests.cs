using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Rounds;

/// <summary>The server dies, answers get lost, tablets change hands: nothing is lost, nothing counts twice.</summary>
public sealed class UnsentWorkTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    private const string Done = "SELECT count(*) FROM ledger WHERE kind = 'Done'";

    [Fact]
    public async Task ServerKilled_WorkWaits_AndIsSentOnceByItself()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var before = await app.SqlAsync<long>(Done);
        var card = await round.FirstOpenAsync("Sow");
        app.Kill();
        try
        {
            await RoundPage.Box(card).ClickAsync();
            await RoundPage.SaysAsync(card, "Done by you");
            await Expect(round.Outbox).ToHaveTextAsync("1 not sent");
            await visit.PictureAsync("rounds-not-sent");
        }
        finally
        {
            await app.StartAsync();
        }

        await Expect(round.Outbox).ToHaveTextAsync("all sent", new() { Timeout = 30_000 });
        Assert.Equal(before + 1, await app.SqlAsync<long>(Done));
        await round.Page.ReloadAsync();
        await RoundPage.SaysAsync(card, "Done by Teo Marchbank");
    }

    [Fact]
    public async Task PageClosedWithUnsentWork_NextPage_ShowsAndSendsIt()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var before = await app.SqlAsync<long>(Done);
        await visit.Page.RouteAsync("**/api/v1/ledger", route => route.AbortAsync());
        var card = await round.FirstOpenAsync("Water");
        await RoundPage.Box(card).ClickAsync();
        await Expect(round.Outbox).ToHaveTextAsync("1 not sent");

        await round.Page.ReloadAsync();
        await RoundPage.SaysAsync(card, "Done by you");
        await Expect(round.Outbox).ToHaveTextAsync("1 not sent");
        await visit.Page.UnrouteAllAsync();
        await round.Outbox.ClickAsync();

        await round.SentAsync();
        Assert.Equal(before + 1, await app.SqlAsync<long>(Done));
    }

    [Fact]
    public async Task AnswerLost_SameEntryIsSentAgain_AndCountsOnce()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var before = await app.SqlAsync<long>(Done);
        await visit.Page.RouteAsync("**/api/v1/ledger", async route =>
        {
            await route.FetchAsync();
            await route.AbortAsync();
        });
        var card = await round.FirstOpenAsync("Sow");
        await RoundPage.Box(card).ClickAsync();
        await Expect(round.Outbox).ToHaveTextAsync("1 not sent");
        await Expect(round.Outbox).ToHaveAttributeAsync("data-state", "waiting");
        Assert.Equal(before + 1, await PollAsync(before + 1));

        await visit.Page.UnrouteAllAsync();
        await round.Outbox.ClickAsync();

        await round.SentAsync();
        Assert.Equal(before + 1, await app.SqlAsync<long>(Done));
    }

    [Fact]
    public async Task Refused_ShowsTheSentenceUntilAPersonTakesItAway()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var task = (await round.Open("Sow").First.GetAttributeAsync("data-task"))!;
        var batch = $"WHERE id = (SELECT batch_id FROM tasks WHERE id = '{task}')";
        var lot = await app.SqlAsync<string>($"SELECT lot_id::text FROM batches {batch}");
        await app.SqlAsync<long>($"UPDATE batches SET lot_id = NULL {batch}");
        await round.Page.ReloadAsync();
        var card = round.Card(task);
        await Expect(card.Locator("a.chip")).ToContainTextAsync("Open batch");

        await RoundPage.Box(card).ClickAsync();

        await Expect(card.Locator(".refused")).ToContainTextAsync("has no seed lot yet: sow it with one");
        await Expect(RoundPage.Box(card)).ToHaveAttributeAsync("aria-pressed", "false");
        await Expect(round.Outbox).ToHaveTextAsync("1 needs attention");
        await visit.PictureAsync("rounds-refused");
        await round.Page.ReloadAsync();
        await RoundPage.Press(card, "Understood").ClickAsync();
        await round.SentAsync();
        await Expect(card.Locator(".refused")).ToHaveCountAsync(0);
        await app.SqlAsync<long>($"UPDATE batches SET lot_id = '{lot}' {batch}");
    }

    [Fact]
    public async Task TabletChangesHands_WorkWaitsForWhoDidIt()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var before = await app.SqlAsync<long>(Done);
        await visit.Page.RouteAsync("**/api/v1/ledger", route => route.AbortAsync());
        var card = await round.FirstOpenAsync("Water");
        await RoundPage.Box(card).ClickAsync();
        await Expect(round.Outbox).ToHaveTextAsync("1 not sent");
        await visit.Page.UnrouteAllAsync();

        await visit.SignInAsync("head-grower");
        await RoundPage.OpenAsync(visit);
        await Expect(round.Outbox).ToHaveTextAsync("1 of another person");
        Assert.Equal(before, await app.SqlAsync<long>(Done));

        await visit.SignInAsync("staff");
        await RoundPage.OpenAsync(visit);
        await round.SentAsync();
        Assert.Equal("Teo Marchbank", await app.SqlAsync<string>("SELECT who_name FROM ledger WHERE kind = 'Done' ORDER BY recorded_at DESC LIMIT 1"));
    }

    private async Task<long> PollAsync(long wanted)
    {
        for (var tries = 0; tries < 50 && await app.SqlAsync<long>(Done) != wanted; tries++)
        {
            await Task.Delay(100);
        }

        return await app.SqlAsync<long>(Done);
    }

    private async Task<Visit> StaffAsync()
    {
        var visit = await app.SignInAsAsync("staff", 820, 1180);
        visit.Expect("net::ERR_");
        return visit;
    }
}
