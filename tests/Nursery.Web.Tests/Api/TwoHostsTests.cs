using Hangfire.Logging;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>Two hosts of one process, one after the other gone: what they share in statics must not stop the one that is left.</summary>
public sealed class TwoHostsTests(ApiServer server) : IClassFixture<ApiServer>
{
    [Fact]
    public async Task Jobs_AfterAnotherHostOfTheProcessIsGone_GoOn()
    {
        var other = await server.StartAsync();
        await other.StopAsync();
        await other.DisposeAsync();

        // Whoever writes a log by now asks a host that is gone.
        Assert.NotNull(LogProvider.GetLogger("jobs"));
        using var begun = await server.Client.PostAsync(new Uri("/api/v1/placements", UriKind.Relative), null);
        Assert.Equal("done", (await server.Client.EndedAsync(begun.Headers.Location!)).GetProperty("state").GetString());
    }
}
