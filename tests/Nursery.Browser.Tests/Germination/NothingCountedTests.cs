using Microsoft.Playwright;
using Nursery.Browser.Tests.App;
using Xunit;
using static Microsoft.Playwright.Assertions;

namespace Nursery.Browser.Tests.Germination;

/// <summary>What a manager meets before anything was sown: each page says what is missing, and papers print all the same.</summary>
public sealed class NothingCountedTests(EmptyNurseryApp app) : IClassFixture<EmptyNurseryApp>
{
    [Theory]
    [InlineData(1280, 800)]
    [InlineData(820, 1180)]
    public async Task Pages_OfAnEmptyNursery_SayWhatIsMissing(int width, int height)
    {
        await using var visit = await app.SignInAsAsync("administrator", width, height);
        await visit.OpenAsync("/");
        await Axe.NothingAsync(visit, "start, empty");
        await visit.PictureAsync($"start-empty-{width}", whole: true);

        await visit.OpenAsync("/germination");
        await Expect(visit.Page.Locator(".empty")).ToContainTextAsync("No batch is counted yet");
        await Axe.NothingAsync(visit, "germination, empty");
        await visit.PictureAsync($"germination-empty-{width}", whole: true);

        await visit.OpenAsync("/papers");
        await Expect(visit.Page.Locator(".empty")).ToContainTextAsync("No tags");
        await visit.Page.GetByRole(AriaRole.Button, new() { Name = "Pick list", Exact = true }).ClickAsync();
        await visit.Page.GetByAltText("Pick list, page 1 as it will be printed").WaitForAsync(new() { Timeout = 60_000 });
        await Axe.NothingAsync(visit, "papers, empty");
        await visit.PictureAsync($"papers-empty-{width}", whole: true);
    }
}
