using System.Text.Json;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>A placing by another system: begun, watched, over.</summary>
public sealed class PlacementTests(ApiServer server) : IClassFixture<ApiServer>
{
    [Fact]
    public async Task Placement_Begun_IsDoneInTheBackgroundAndTellsWhatWasPlacedWhere()
    {
        using var begun = await server.Client.PostAsync(new Uri("/api/v1/placements", UriKind.Relative), null);
        Assert.Equal(202, (int)begun.StatusCode);
        using var first = JsonDocument.Parse(await begun.Content.ReadAsStringAsync());
        var id = first.RootElement.GetProperty("id").GetString();
        Assert.Equal("queued", first.RootElement.GetProperty("state").GetString());
        Assert.Equal($"/api/v1/placements/{id}", begun.Headers.Location!.ToString());

        var run = await server.Client.EndedAsync(begun.Headers.Location);
        Assert.Equal("done", run.GetProperty("state").GetString());
        Assert.Equal(run.GetProperty("total").GetInt32(), run.GetProperty("done").GetInt32());
        var result = run.GetProperty("result");
        var looked = result.GetProperty("placed").GetArrayLength() + result.GetProperty("notPlaced").GetArrayLength();
        Assert.True(looked > 0, "The demo has batches without a place.");
        Assert.Equal(run.GetProperty("total").GetInt32(), looked);

        using var stop = await server.Client.PostAsync(new Uri($"/api/v1/placements/{id}/stop", UriKind.Relative), null);
        Assert.Equal(200, (int)stop.StatusCode);
        using var after = JsonDocument.Parse(await stop.Content.ReadAsStringAsync());
        Assert.Equal("done", after.RootElement.GetProperty("state").GetString());
    }
}
