using Microsoft.AspNetCore.Builder;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Npgsql;
using Nursery.Application.Access;
using Nursery.Application.Scenario;
using Nursery.Application.Setup;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Sites;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Web.Hosting;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>The whole program on a port of its own, over the demo nursery and a database of its own; its clock stands.</summary>
public sealed class ApiServer : IAsyncLifetime
{
    private static readonly string[] CountedTables =
    [
        "customers", "orders", "order_lines", "batches", "tray_sets", "tray_shares", "allocations", "reservations", "standings",
        "ledger", "idempotent_requests", "outages",
    ];

    private WebApplication? _app;

    public TestDatabase Database { get; } = new();

    public FakeTimeProvider Clock { get; } = new(TestNursery.Start);

    public ScenarioResult Demo { get; private set; } = null!;

    /// <summary>A key of the demo site with every scope.</summary>
    public HttpClient Client { get; private set; } = null!;

    public IServiceProvider Services => _app!.Services;

    public Uri Address => new(_app!.Urls.Single());

    public async Task InitializeAsync()
    {
        await Database.InitializeAsync();
        _app = await StartAsync();
        Demo = await Services.GetRequiredService<LoadScenario>().HandleAsync(Path.Combine(AppContext.BaseDirectory, "seed-scenario"));
        Client = ClientOf(Demo.ApiKey);
    }

    public async Task DisposeAsync()
    {
        Client.Dispose();
        await _app!.StopAsync();
        await _app.DisposeAsync();
        await Database.DisposeAsync();
    }

    /// <summary>A server on the same database.</summary>
    public async Task<WebApplication> StartAsync(Action<IServiceCollection>? configure = null)
    {
        var app = Build(configure);
        await app.StartAsync();
        return app;
    }

    /// <summary>A server on the same database that is not started.</summary>
    public WebApplication Build(Action<IServiceCollection>? configure = null) => NurseryHost.Build(
        ["--urls", "http://127.0.0.1:0"],
        new NurseryDatabase(Database.AppConnectionString, Database.OwnerConnectionString),
        builder =>
        {
            builder.Services.AddSingleton<TimeProvider>(Clock);
            configure?.Invoke(builder.Services);
        });

    /// <summary>A second site with a key for it.</summary>
    public async Task<(TestNursery Nursery, HttpClient Client)> OpenOtherSiteAsync(params Right[] scopes)
    {
        var nursery = await TestNursery.OpenAsync(Database, Clock);
        var key = await Services.GetRequiredService<IssueApiKey>().HandleAsync(
            "other system", scopes.Length == 0 ? Enum.GetValues<Right>() : scopes, nursery.Administrator);
        return (nursery, ClientOf(key.Secret));
    }

    /// <summary>A client with a key of the demo site that has these scopes.</summary>
    public async Task<HttpClient> ClientWithAsync(params Right[] scopes)
    {
        var key = await Services.GetRequiredService<IssueApiKey>().HandleAsync("test", scopes, await DemoAdministratorAsync());
        return ClientOf(key.Secret);
    }

    public async Task<Actor> DemoAdministratorAsync()
    {
        await using var database = await DatabaseAsync();
        var site = await database.Sites.SingleAsync(row => row.IsDemo);
        return new Actor(DerivedId.From(site.Id.Value, "administrator"), "Administrator", site.Id, RoleRights.Of(Role.Administrator));
    }

    public HttpClient ClientOf(string? key)
    {
        var client = Anonymous();
        if (key is not null)
        {
            client.DefaultRequestHeaders.Authorization = new("Bearer", key);
        }

        return client;
    }

    /// <summary>No key, no cookies kept, no redirects followed.</summary>
    public HttpClient Anonymous() =>
        new(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false }) { BaseAddress = Address };

    public Task<NurseryDbContext> DatabaseAsync() =>
        Services.GetRequiredService<IDbContextFactory<NurseryDbContext>>().CreateDbContextAsync();

    /// <summary>How many rows there are of everything the API writes.</summary>
    public async Task<string> RowsAsync()
    {
        await using var connection = new NpgsqlConnection(Database.AppConnectionString);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        var counts = CountedTables.Select(table => $"SELECT '{table}=' || count(*) FROM {table}");
#pragma warning disable CA2100 // The names are those above.
        command.CommandText = string.Join(" UNION ALL ", counts);
#pragma warning restore CA2100
        var rows = new List<string>();
        await using var reader = await command.ExecuteReaderAsync();
        while (await reader.ReadAsync())
        {
            rows.Add(reader.GetString(0));
        }

        return string.Join(' ', rows.Order(StringComparer.Ordinal));
    }
}
