using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Rounds;

/// <summary>A member of staff walks the round on a tablet, 820 × 1180.</summary>
public sealed partial class RoundTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    [Fact]
    public async Task Box_Tapped_IsDoneOnTheServerAndAfterReload()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        await visit.PictureAsync("rounds-before", whole: true);
        var card = await round.FirstOpenAsync("Sow");
        var batch = await card.GetAttributeAsync("data-batch");

        await RoundPage.Box(card).ClickAsync();

        await RoundPage.SaysAsync(card, "Done by you");
        await round.SentAsync();
        Assert.Equal("Sown", await app.SqlAsync<string>($"SELECT state_stage FROM batches WHERE id = '{batch}'"));
        await round.Page.ReloadAsync();
        await RoundPage.SaysAsync(card, "Done by Teo Marchbank");
        await Expect(RoundPage.Box(card)).ToHaveAttributeAsync("aria-pressed", "true");
    }

    [Fact]
    public async Task Undo_AfterReload_OpensTheTaskAgain()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var card = await round.FirstOpenAsync("Water");
        await RoundPage.Box(card).ClickAsync();
        await round.SentAsync();
        await round.Page.ReloadAsync();

        await RoundPage.Press(card, "Undo").ClickAsync();

        await round.SentAsync();
        await round.Page.ReloadAsync();
        await Expect(card).ToHaveClassAsync(OpenWord());
        await Expect(RoundPage.Press(card, "Undo")).ToBeHiddenAsync();
    }

    [Fact]
    public async Task Box_TappedTwiceByAWetThumb_TakesNothingBack()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var card = await round.FirstOpenAsync("MoveOffHeat");
        var before = await app.SqlAsync<long>("SELECT count(*) FROM ledger WHERE kind = 'Done'");

        await RoundPage.Box(card).DblClickAsync();

        await round.SentAsync();
        await RoundPage.SaysAsync(card, "Done by you");
        Assert.Equal(before + 1, await app.SqlAsync<long>("SELECT count(*) FROM ledger WHERE kind = 'Done'"));
    }

    [Fact]
    public async Task Group_OneTap_WatersEveryBatchAndUndoOpensThemAgain()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var group = round.Page.Locator(".tick-group.open").Last;
        var name = await group.GetAttributeAsync("data-name");
        group = round.Page.Locator($".tick-group[data-name=\"{name}\"]");
        var members = await group.Locator(".tick-card").CountAsync();
        Assert.True(members > 1);

        await RoundPage.Box(group).ClickAsync();

        await round.SentAsync();
        await Expect(group.Locator(".tick-card.done")).ToHaveCountAsync(members);
        await visit.PictureAsync("rounds-group-done");
        await group.Locator("> .tick-aside").GetByText("Undo").ClickAsync();
        await round.SentAsync();
        await round.Page.ReloadAsync();
        await Expect(group.Locator(".tick-card.open")).ToHaveCountAsync(members);
        await RoundPage.Press(group, "One by one").ClickAsync();
        await RoundPage.Box(group.Locator(".tick-card").First).ClickAsync();
        await RoundPage.SaysAsync(group, $"1 of {members} done");
        await round.SentAsync();
        await visit.PictureAsync("rounds-group-open");
    }

    [Fact]
    public async Task NotYet_WithOwnWords_IsKeptAndTheTaskStaysOpen()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var card = await round.FirstOpenAsync("Thin");
        await RoundPage.Press(card, "Not yet …").ClickAsync();
        await visit.PictureAsync("rounds-not-yet");
        await RoundPage.Press(card, "Save the reason").ClickAsync();
        await Expect(card.Locator(".wrong")).ToHaveTextAsync("Say in a word or two why it is not done.");

        await card.GetByLabel("In your own words").FillAsync("leaves still wet");
        await RoundPage.Press(card, "Save the reason").ClickAsync();

        await RoundPage.SaysAsync(card, "Not yet: leaves still wet (you)");
        await round.SentAsync();
        await round.Page.ReloadAsync();
        await RoundPage.SaysAsync(card, "Not yet: leaves still wet (Teo Marchbank)");
        await Expect(RoundPage.Box(card)).ToHaveAttributeAsync("aria-pressed", "false");
    }

    [Fact]
    public async Task Count_OfASample_IsStoredAndAnswersTheCheck()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var card = await round.FirstOpenAsync("EmergenceCheck");
        var batch = await card.GetAttributeAsync("data-batch");
        await RoundPage.Press(card, "Count").ClickAsync();
        var counted = card.GetByLabel("How many");
        await RoundPage.Press(card, "seedlings").ClickAsync();
        await card.GetByLabel("Trays counted").FillAsync("1");
        await RoundPage.Press(card, "Save the count").ClickAsync();
        await Expect(card.Locator(".wrong")).ToContainTextAsync("How many: a number from 0 to");
        await counted.FillAsync("100000");
        await RoundPage.Press(card, "Save the count").ClickAsync();
        await Expect(card.Locator(".wrong")).ToContainTextAsync("How many: a number from 0 to");
        await counted.FillAsync("41");
        await RoundPage.Press(card, "One more").ClickAsync();
        await visit.PictureAsync("rounds-count");

        await RoundPage.Press(card, "Save the count").ClickAsync();

        await Expect(card.Locator(".tick-note")).ToContainTextAsync("42 seedlings counted");
        await RoundPage.SaysAsync(card, "Done by you");
        await round.SentAsync();
        var stored = await app.SqlAsync<string>($"SELECT sent #>> '{{}}' FROM ledger WHERE kind = 'Count' AND batch_id = '{batch}' ORDER BY recorded_at DESC LIMIT 1");
        Assert.Matches("\"value\": ?42", stored);
        Assert.Matches("\"sample\": ?true", stored);
        Assert.Matches("\"howMany\": ?1", stored);
    }

    [Fact]
    public async Task Loss_WithCause_IsStoredAndCanBeTakenBack()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var sown = await round.Open("Thin").First.GetAttributeAsync("data-batch");
        await round.Page.GetByRole(AriaRole.Button, new() { Name = "Report a loss" }).ClickAsync();
        var sheet = round.Page.GetByRole(AriaRole.Dialog);
        await sheet.GetByLabel("Batch").SelectOptionAsync(sown!);
        await sheet.GetByLabel("Plants lost").FillAsync("12");
        await RoundPage.Press(sheet, "Save the loss").ClickAsync();
        await Expect(sheet.GetByRole(AriaRole.Alert)).ToHaveTextAsync("Choose the cause, or write it.");
        await RoundPage.Press(sheet, "damping-off").ClickAsync();
        await visit.PictureAsync("rounds-loss");
        var lost = $"SELECT state_lost FROM batches WHERE id = '{sown}'";
        var before = await app.SqlAsync<int>(lost);

        await RoundPage.Press(sheet, "Save the loss").ClickAsync();

        await round.SentAsync();
        Assert.Equal(before + 12, await app.SqlAsync<int>(lost));
        await RoundPage.Press(round.Page.Locator(".tick-note"), "Undo").ClickAsync();
        await round.SentAsync();
        Assert.Equal(before, await app.SqlAsync<int>(lost));
    }

    [Fact]
    public async Task Loss_FromACard_TakesTwoTaps()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var card = await round.FirstOpenAsync("Thin");
        var lost = $"SELECT state_lost FROM batches WHERE id = '{await card.GetAttributeAsync("data-batch")}'";
        var before = await app.SqlAsync<int>(lost);

        await RoundPage.Press(card, "Loss …").ClickAsync();
        await RoundPage.Press(card, "pests").ClickAsync();

        await Expect(card.Locator(".tick-note")).ToContainTextAsync("Lost: 1, pests");
        await round.SentAsync();
        Assert.Equal(before + 1, await app.SqlAsync<int>(lost));
    }

    [Fact]
    public async Task CarriedElsewhere_IsWhereTheTraysStand_AndAnswersTheTask()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var card = await round.FirstOpenAsync("MoveOffHeat");
        var batch = await card.GetAttributeAsync("data-batch");
        await Expect(card.Locator(".way")).ToContainTextAsync("→");
        await RoundPage.Press(card, "Carried elsewhere …").ClickAsync();
        var bench = await card.Locator("option").Last.GetAttributeAsync("value");
        await card.Locator("select").SelectOptionAsync(bench!);
        await card.GetByLabel("First space").FillAsync("x");
        await RoundPage.Press(card, "All trays are there").ClickAsync();
        await Expect(card.Locator(".wrong")).ToHaveTextAsync("First space: a whole number, or nothing.");
        await card.GetByLabel("First space").FillAsync("2");

        await RoundPage.Press(card, "All trays are there").ClickAsync();

        await RoundPage.SaysAsync(card, "Done by you");
        await round.SentAsync();
        Assert.Equal($"{bench} 2", await app.SqlAsync<string>(
            $"""
            SELECT b.code || ' ' || lower(p.spaces) FROM standings p JOIN benches b ON b.id = p.bench_id
            JOIN tray_shares s ON s.tray_set_id = p.tray_set_id WHERE s.batch_id = '{batch}'
            """));
    }

    [Fact]
    public async Task NotOnTheList_ABenchWatered_IsStoredForItsBatchesAndCanBeTakenBack()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var group = round.Page.Locator(".stop:has(.tick-group)").Last;
        var bench = await group.GetAttributeAsync("data-bench");
        var worked = "SELECT count(*) FROM ledger WHERE kind = 'Worked'";
        var before = await app.SqlAsync<long>(worked);
        await round.Page.GetByRole(AriaRole.Button, new() { Name = "Not on the list" }).ClickAsync();
        var sheet = round.Page.GetByRole(AriaRole.Dialog);
        await RoundPage.Press(sheet, "Save the work").ClickAsync();
        await Expect(sheet.GetByRole(AriaRole.Alert)).ToHaveTextAsync("Choose what was done, or write it.");
        await sheet.Locator("select").SelectOptionAsync(new SelectOptionValue { Index = await sheet.Locator($"option[data-bench='{bench}']").EvaluateAsync<int>("option => option.index") });
        await RoundPage.Press(sheet, "watered").ClickAsync();
        await visit.PictureAsync("rounds-not-on-the-list");

        await RoundPage.Press(sheet, "Save the work").ClickAsync();

        await round.SentAsync();
        Assert.True(await app.SqlAsync<long>(worked) > before + 1);
        await RoundPage.Press(round.Page.Locator(".tick-note").First, "Undo").ClickAsync();
        await round.SentAsync();
        await Expect(round.Page.Locator(".house > .tick-note")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Tag_Scanned_LeadsToItsWork()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var last = round.Page.Locator(".stop[data-bench]").Last;
        var bench = await last.GetAttributeAsync("data-bench");
        await round.Page.GetByRole(AriaRole.Button, new() { Name = "Scan a tag" }).ClickAsync();
        var sheet = round.Page.GetByRole(AriaRole.Dialog);
        await sheet.GetByLabel("Code on the tag").FillAsync("NO-SUCH-1");
        await RoundPage.Press(sheet, "Find it").ClickAsync();
        await Expect(sheet.GetByRole(AriaRole.Alert)).ToHaveTextAsync("Nothing to do today has the code NO-SUCH-1.");
        await visit.PictureAsync("rounds-scan");

        await sheet.GetByLabel("Code on the tag").FillAsync($"HTTPS://NURSERY.EXAMPLE/B/{bench}");
        await sheet.GetByLabel("Code on the tag").PressAsync("Enter");

        await Expect(sheet).ToBeHiddenAsync();
        await Expect(last).ToBeInViewportAsync();
        await visit.Page.GotoAsync($"/B/{bench}");
        await Expect(round.Page.Locator(".found")).ToHaveAttributeAsync("data-bench", bench!);
    }

    [Fact]
    public async Task DoneByAnother_ShowsWithoutLoadingAgain()
    {
        await using var visit = await StaffAsync();
        await using var other = await app.SignInAsAsync("head-grower", 820, 1180);
        var round = await RoundPage.OpenAsync(visit);
        var card = await round.FirstOpenAsync("Water");
        var theirs = await RoundPage.OpenAsync(other);
        await RoundPage.Box(theirs.Card((await card.GetAttributeAsync("data-task"))!)).ClickAsync();
        await theirs.SentAsync();

        await visit.Page.EvaluateAsync("document.dispatchEvent(new Event('visibilitychange'))");

        await Expect(card.Locator("> .tick-said")).ToContainTextAsync("Done by ");
        await Expect(RoundPage.Box(card)).ToHaveAttributeAsync("aria-pressed", "true");
        await visit.Page.ReloadAsync();
        await Expect(round.Page.GetByRole(AriaRole.List, new() { Name = "Who else is at work" })).ToContainTextAsync("1 report");
    }

    [Fact]
    public async Task Surface_Chip_IsShownAfterReload()
    {
        await using var visit = await StaffAsync();
        var round = await RoundPage.OpenAsync(visit);
        var row = round.Page.Locator(".surface").First;

        await RoundPage.Press(row, "damp").ClickAsync();

        await round.SentAsync();
        await round.Page.ReloadAsync();
        await Expect(RoundPage.Press(row, "damp")).ToHaveAttributeAsync("aria-pressed", "true");
        await Expect(row.Locator(".tick-said")).ToHaveTextAsync("seen by Teo Marchbank");
    }

    [Fact]
    public async Task Rounds_ForAManager_AreNotAllowed()
    {
        await using var visit = await app.SignInAsAsync("manager");
        await visit.Page.GotoAsync("/rounds");

        await Expect(visit.Page).ToHaveURLAsync(new Regex("/not-allowed"));
    }

    [Fact]
    public async Task Page_IsStrictAboutWhatRuns()
    {
        await using var visit = await StaffAsync();
        var answer = await visit.Page.GotoAsync("/rounds");
        var policy = await answer!.HeaderValueAsync("content-security-policy");

        Assert.Contains("script-src 'self';", policy, StringComparison.Ordinal);
        Assert.Contains("style-src 'self';", policy, StringComparison.Ordinal);
        Assert.Equal(0, await visit.Page.Locator("[style], [onclick], style, script:not([src])").CountAsync());
    }

    private Task<Visit> StaffAsync() => app.SignInAsAsync("staff", 820, 1180);

    [GeneratedRegex(@"\bopen\b")]
    private static partial Regex OpenWord();
}
