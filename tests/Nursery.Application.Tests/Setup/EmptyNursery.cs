using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Nursery.Application.Access;
using Nursery.Application.Crops;
using Nursery.Application.People;
using Nursery.Application.Setup;
using Nursery.Application.Setup.Lists;
using Nursery.Data;
using Nursery.Domain.People;
using Nursery.Testing.Database;

namespace Nursery.Application.Tests.Setup;

/// <summary>A database of its own with a site and an administrator, and nothing else.</summary>
internal sealed class EmptyNursery : IAsyncDisposable
{
    private readonly TestDatabase _database;
    private readonly ServiceProvider _services;

    private EmptyNursery(TestDatabase database, ServiceProvider services) => (_database, _services) = (database, services);

    public Actor Administrator { get; private set; } = null!;

    public static async Task<EmptyNursery> OpenAsync()
    {
        var database = new TestDatabase();
        await database.InitializeAsync();
        var services = new ServiceCollection();
        services.AddLogging();
        services.AddNursery(new NurseryDatabase(database.AppConnectionString, database.OwnerConnectionString));
        var clock = new FakeTimeProvider(new DateTimeOffset(2026, 3, 2, 15, 0, 0, TimeSpan.Zero));
        services.AddSingleton<TimeProvider>(clock);
        services.AddSingleton(new StartingCrops(clock) { Folder = Scenario.DemoNursery.Folder });
        var nursery = new EmptyNursery(database, services.BuildServiceProvider());
        await nursery.Get<AddFirstPerson>().HandleAsync(new FirstPersonRequest(
            new Dictionary<string, string> { ["user"] = "ada", ["name"] = "Ada Thistlewick", ["role"] = "administrator" },
            new Dictionary<string, string>
            {
                ["code"] = "TW",
                ["name"] = "Thistlewick",
                ["time_zone"] = "America/Chicago",
                ["units"] = "us",
                ["currency"] = "USD",
                ["margin_days"] = "7",
                ["paper"] = "letter",
                ["hands"] = "",
                ["hand_minutes"] = "",
            }));
        await using var rows = await nursery.DatabaseAsync();
        var person = await rows.Users.Select(user => user.Id).SingleAsync();
        nursery.Administrator = (await nursery.Get<FindActor>().ByPersonAsync(person))!;
        return nursery;
    }

    public T Get<T>()
        where T : notnull => _services.GetRequiredService<T>();

    public Task<NurseryDbContext> DatabaseAsync() => Get<IDbContextFactory<NurseryDbContext>>().CreateDbContextAsync();

    public Task<SetupImport> ImportAsync(string list, string csv, bool dryRun = false) =>
        Get<ImportSetupList>().HandleAsync(list, Encoding.UTF8.GetBytes(csv), dryRun, Administrator);

    public async Task<string> ExportAsync(string list) =>
        Encoding.UTF8.GetString(await Get<ExportSetupList>().HandleAsync(list, Administrator));

    public async Task<SetupRow> RowAsync(string list, string key) =>
        (await Get<ShowSetupList>().HandleAsync(list, Administrator)).Rows.Single(row => row.Key == key);

    public Task<SetupChange> SaveAsync(string list, SetupRow row, string field, string value) =>
        Get<SaveSetupRow>().HandleAsync(
            new SaveRowRequest(list, row.Id, row.Version, new Dictionary<string, string>(row.Fields) { [field] = value }), Administrator);

    public async ValueTask DisposeAsync()
    {
        await _services.DisposeAsync();
        await _database.DisposeAsync();
    }
}
