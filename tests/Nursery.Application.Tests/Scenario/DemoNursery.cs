using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Nursery.Application.Scenario;
using Nursery.Application.Setup;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Testing.Database;

namespace Nursery.Application.Tests.Scenario;

/// <summary>A database of its own with the demo nursery loaded at an instant, as the running program would: as the app's role.</summary>
internal sealed class DemoNursery : IAsyncDisposable
{
    private readonly TestDatabase _database;
    private readonly ServiceProvider _services;

    private DemoNursery(TestDatabase database, ServiceProvider services) => (_database, _services) = (database, services);

    public static string Folder { get; } = Path.Combine(Root(), "seed-scenario");

    public ScenarioResult Result { get; private set; } = null!;

    public TimeSpan LoadTime { get; private set; }

    public static async Task<DemoNursery> EmptyAsync(string now)
    {
        var database = new TestDatabase();
        await database.InitializeAsync();
        var services = new ServiceCollection();
        services.AddLogging();
        services.AddNursery(new NurseryDatabase(database.AppConnectionString, database.OwnerConnectionString));
        services.AddSingleton<TimeProvider>(new FakeTimeProvider(DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture)));
        return new DemoNursery(database, services.BuildServiceProvider());
    }

    public static async Task<DemoNursery> LoadAsync(string now)
    {
        var nursery = await EmptyAsync(now);
        var watch = Stopwatch.StartNew();
        nursery.Result = await nursery.Get<LoadScenario>().HandleAsync(Folder);
        nursery.LoadTime = watch.Elapsed;
        return nursery;
    }

    public T Get<T>()
        where T : notnull => _services.GetRequiredService<T>();

    public Task<NurseryDbContext> OpenAsync() => Get<IDbContextFactory<NurseryDbContext>>().CreateDbContextAsync();

    /// <summary>The first person of a role, as an actor.</summary>
    public async Task<Actor> ActorAsync(Role role)
    {
        await using var database = await OpenAsync();
        var person = await (
            from row in database.PersonSites
            join user in database.Users on row.PersonId equals user.Id
            where row.Role == role
            orderby user.UserName
            select new { row.PersonId, user.DisplayName, row.SiteId }).FirstAsync();
        return new Actor(person.PersonId, person.DisplayName, person.SiteId, RoleRights.Of(role));
    }

    public async ValueTask DisposeAsync()
    {
        await _services.DisposeAsync();
        await _database.DisposeAsync();
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Nursery.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("No folder above the test holds Nursery.sln.");
        }

        return folder.FullName;
    }
}
