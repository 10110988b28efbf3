using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;

namespace Nursery.Benchmarks;

/// <summary>A nursery with a full house of 2,000 trays in a database of its own on a real PostgreSQL, started as the tests start it.</summary>
internal sealed class FullNursery : IAsyncDisposable
{
    private readonly TestDatabase _database = new();

    public TestNursery Nursery { get; private set; } = null!;

    public static async Task<FullNursery> OpenAsync()
    {
        var full = new FullNursery();
        await full._database.InitializeAsync();
        var nursery = full.Nursery = await TestNursery.OpenAsync(full._database);
        await using var database = await nursery.DatabaseAsync();
        await FullHouse.AddAsync(database, nursery.At.Site, nursery.Tomato, nursery.Clock, new(nursery.Staff.Id, nursery.Staff.Name));
        return full;
    }

    public async ValueTask DisposeAsync()
    {
        await Nursery.DisposeAsync();
        await _database.DisposeAsync();
    }
}
