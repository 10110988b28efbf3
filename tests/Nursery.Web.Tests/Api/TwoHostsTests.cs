using Hangfire;
using Hangfire.Logging;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Setup;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>Two hosts of one process, and one of them gone: what the library of jobs keeps in statics must not stop the other.</summary>
public sealed class TwoHostsTests(ApiServer server) : IClassFixture<ApiServer>
{
    [Fact]
    public async Task Jobs_OfTheFirstOfTwoHosts_RunWithItsOwnServices()
    {
        await using var first = server.Build();
        await using var second = server.Build();
        first.Services.GetRequiredService<IGlobalConfiguration>();
        second.Services.GetRequiredService<IGlobalConfiguration>();

        using var scope = first.Services.GetRequiredService<JobActivator>().BeginScope((JobActivatorContext)null!);

        Assert.Same(first.Services.GetRequiredService<NurseryDatabase>(), scope.Resolve(typeof(NurseryDatabase)));
    }

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
