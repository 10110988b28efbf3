using Nursery.Browser.Tests.App;
using Xunit;

namespace Nursery.Browser.Tests.Rounds;

public sealed class RoundPictures(NurseryApp app) : IClassFixture<NurseryApp>
{
    [Fact]
    public async Task Look()
    {
        await using var visit = await app.SignInAsAsync("staff", 820, 1180);
        await visit.Page.GotoAsync("/rounds");
        await Task.Delay(500);
        await visit.PictureAsync("rounds-before");
        await visit.PictureAsync("rounds-before-whole", true);
    }
}
