using System.Net;
using System.Net.Http.Json;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>A print of tags by another system: begun, watched, fetched.</summary>
public sealed class TagsRunTests(ApiServer server) : IClassFixture<ApiServer>
{
    [Fact]
    public async Task Run_Begun_IsPrintedInTheBackgroundAndFetched()
    {
        using var begun = await server.Client.PostAsJsonAsync("/api/v1/papers/tray-tags/runs", new { paper = "letter" });
        Assert.Equal(HttpStatusCode.Accepted, begun.StatusCode);
        var place = begun.Headers.Location!;

        var run = await server.Client.EndedAsync(place);
        Assert.Equal("done", run.GetProperty("state").GetString());
        Assert.Equal("letter", run.GetProperty("request").GetProperty("paper").GetString());
        Assert.True(run.GetProperty("total").GetInt32() > 0, "The demo has trays.");
        var pdf = await server.Client.GetByteArrayAsync(new Uri(place + "/tags.pdf", UriKind.Relative));
        Assert.Equal(run.GetProperty("bytes").GetInt32(), pdf.Length);
        Assert.Equal("%PDF-"u8.ToArray(), pdf[..5]);
    }

    [Fact]
    public async Task Run_HouseThatIsNone_IsRefusedAndNothingRuns()
    {
        using var refused = await server.Client.PostAsJsonAsync("/api/v1/papers/tray-tags/runs", new { house = "H99" });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("H99", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
