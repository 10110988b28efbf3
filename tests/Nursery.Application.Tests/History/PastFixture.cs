using Nursery.Application.History;
using Xunit;

namespace Nursery.Application.Tests.History;

/// <summary>The demo nursery with its past, loaded once.</summary>
public sealed class PastFixture : IAsyncLifetime
{
    internal Scenario.DemoNursery Nursery { get; private set; } = null!;

    internal PastLoaded Loaded { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        Nursery = await Scenario.DemoNursery.LoadAsync("2026-04-15T14:00:00Z");
        Loaded = await Nursery.Get<LoadPast>().HandleAsync(LoadPast.DemoSeed, folder: null);
    }

    public async Task DisposeAsync() => await Nursery.DisposeAsync();
}
