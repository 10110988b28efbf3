using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Rounds;

/// <summary>Targets, gaps, contrast and axe on the round in every state a person meets.</summary>
public sealed class RoundErgonomicsTests(NurseryApp app) : IClassFixture<NurseryApp>
{
    /// <summary>A rule of another page's style sheet once pushed the words below their box, and nothing else noticed.</summary>
    private const string TitlesBesideNoBox =
        """
        () => [...document.querySelectorAll('.tick-row')].filter(row => row.checkVisibility() &&
          Math.abs(row.querySelector('h3').getBoundingClientRect().top - row.querySelector('.box').getBoundingClientRect().top) > 16).length
        """;

    [Theory]
    [InlineData(820, 1180)]
    [InlineData(1180, 820)]
    public async Task Page_InEveryState_KeepsToFieldRules(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("staff", width, height);
        var round = await RoundPage.OpenAsync(visit);
        await CheckAsync(visit, $"rounds-{width}-start");

        var check = await round.FirstOpenAsync("EmergenceCheck");
        await check.Locator("summary").ClickAsync();
        await Expect(check.GetByRole(AriaRole.Table)).ToContainTextAsync("days since sowing");
        await CheckAsync(visit, $"rounds-{width}-how");
        await check.Locator("summary").ClickAsync();
        await RoundPage.Press(check, "Count").ClickAsync();
        await CheckAsync(visit, $"rounds-{width}-count");

        var water = await round.FirstOpenAsync("Water");
        await RoundPage.Press(water, "Not yet …").ClickAsync();
        await CheckAsync(visit, $"rounds-{width}-not-yet");

        await RoundPage.Press(water, "no time").ClickAsync();
        var group = round.Page.Locator(".tick-group.open").First;
        await RoundPage.Press(group, "One by one").ClickAsync();
        await RoundPage.Box(group.Locator(".tick-card.open").First).ClickAsync();
        await round.SentAsync();
        await CheckAsync(visit, $"rounds-{width}-some-done");

        await round.Page.GetByRole(AriaRole.Button, new() { Name = "Report a loss" }).ClickAsync();
        await CheckAsync(visit, $"rounds-{width}-loss");
        await round.Page.GetByRole(AriaRole.Button, new() { Name = "Close" }).ClickAsync();

        foreach (var (opens, sheet) in new[] { ("Not on the list", "work"), ("Scan a tag", "scan") })
        {
            await round.Page.GetByRole(AriaRole.Button, new() { Name = opens }).ClickAsync();
            await CheckAsync(visit, $"rounds-{width}-{sheet}");
            await round.Page.GetByRole(AriaRole.Button, new() { Name = "Close" }).ClickAsync();
        }

        var move = await round.FirstOpenAsync("MoveOffHeat");
        await RoundPage.Press(move, "Loss …").ClickAsync();
        await CheckAsync(visit, $"rounds-{width}-loss-of-a-card");
        await RoundPage.Press(move, "Carried elsewhere …").ClickAsync();
        await CheckAsync(visit, $"rounds-{width}-elsewhere");
    }

    [Fact]
    public async Task Page_WithoutJavaScript_CanBeReadAndSaysSo()
    {
        await using var visit = await app.SignInAsAsync("staff", 820, 1180, new() { JavaScriptEnabled = false });
        var round = await RoundPage.OpenAsync(visit);

        await Expect(round.Page.GetByText("Marking work as done needs JavaScript")).ToBeVisibleAsync();
        await Expect(round.Page.Locator(".tick-card .why").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Measure_OfAPageThatIsWrong_SeesIt()
    {
        await using var visit = await app.VisitAsync(820, 1180);
        await visit.Page.SetContentAsync(
            "<button id=a style='width:40px;height:60px'>a</button><button style='width:60px;height:60px'>b</button><p style='color:#767676'>grey</p>");

        var (targets, texts, wrong) = await FieldPage.MeasureAsync(visit.Page);

        Assert.Equal((2, 3), (targets, texts));
        Assert.Contains(wrong, line => line.StartsWith("target 40×60", StringComparison.Ordinal));
        Assert.Contains(wrong, line => line.StartsWith("gap 0", StringComparison.Ordinal));

        // #767676 on white is the 4.54:1 that the understanding document of WCAG 2 success criterion 1.4.3 names.
        Assert.Contains(wrong, line => line.StartsWith("contrast 4.54", StringComparison.Ordinal));
    }

    private static async Task CheckAsync(Visit visit, string state)
    {
        await visit.PictureAsync(state);
        var (targets, texts, wrong) = await FieldPage.MeasureAsync(visit.Page);
        Assert.True(targets >= 3 && texts >= 5, $"{state}: only {targets} targets and {texts} texts were measured");
        Assert.True(wrong.Count == 0, $"{state}:\n{string.Join('\n', wrong.Take(20))}");
        Assert.Equal(0, await visit.Page.EvaluateAsync<int>(TitlesBesideNoBox));
        await Axe.NothingAsync(visit, state);
    }
}
