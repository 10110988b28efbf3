using Xunit;

namespace Nursery.Application.Tests.Scenario;

/// <summary>The demo nursery loaded once, on a plain day in mid-season.</summary>
public sealed class DemoNurseryFixture : IAsyncLifetime
{
    internal DemoNursery Nursery { get; private set; } = null!;

    public async Task InitializeAsync() => Nursery = await DemoNursery.LoadAsync("2026-04-15T14:00:00Z");

    public async Task DisposeAsync() => await Nursery.DisposeAsync();
}
