using Npgsql;
using Nursery.Data.Cluster;
using Nursery.Data.Schema;
using Xunit;

namespace Nursery.Testing.Database;

/// <summary>
/// A database of its own for one test class (IClassFixture&lt;TestDatabase&gt;): a clone of the template every test process makes once,
/// or of another database that <see cref="CloseAsync">was closed</see>.
/// Always a real PostgreSQL; without one the tests fail, they are not skipped.
/// </summary>
public sealed class TestDatabase : IAsyncLifetime
{
    private static readonly Lazy<Task<TestServer>> _server = new(() => MakeServerAsync(CancellationToken.None));

    private readonly string? _copyOf;
    private TestServer? _own;

    public TestDatabase()
    {
    }

    private TestDatabase(string copyOf) => _copyOf = copyOf;

    /// <summary>Fills the template, given the owner's connection string; runs once a process, before the first clone.</summary>
    public static Func<string, Task> PrepareTemplate { get; set; } = owner =>
        SchemaUpdate.ApplyAsync(owner, new NpgsqlConnectionStringBuilder(owner) { Username = ClusterDatabase.AppRole }.ConnectionString);

    public string Name { get; } = $"test_{Guid.NewGuid():N}";

    /// <summary>Role nursery: may do everything in this database.</summary>
    public string OwnerConnectionString => Connect(Own.MaintenanceConnectionString);

    /// <summary>Role nursery_app: what the running program may do.</summary>
    public string AppConnectionString => Connect(Own.AppConnectionString);

    private TestServer Own => _own ?? throw new InvalidOperationException("The test database is used before it was made.");

    public async Task InitializeAsync()
    {
        _own = await _server.Value.ConfigureAwait(false);
        await _own.CloneAsync(Name, _copyOf).ConfigureAwait(false);
    }

    /// <summary>A database that begins as this one, which has to be closed first; not made yet.</summary>
    public TestDatabase Copy() => new(Name);

    /// <summary>Nobody comes in any more; it stays until the process ends.</summary>
    public async Task CloseAsync()
    {
        await LeaveAsync().ConfigureAwait(false);
        await Own.CloseAsync(Name).ConfigureAwait(false);
    }

    public async Task DisposeAsync()
    {
        await LeaveAsync().ConfigureAwait(false);
        await Own.DropAsync(Name).ConfigureAwait(false);
    }

    private async Task LeaveAsync()
    {
        // Pools would keep dead connections, and a later test class could run into the server's limit.
        foreach (var used in new[] { OwnerConnectionString, AppConnectionString })
        {
            await using var connection = new NpgsqlConnection(used);
            NpgsqlConnection.ClearPool(connection);
        }
    }

    private static async Task<TestServer> MakeServerAsync(CancellationToken cancel)
    {
        var named = Environment.GetEnvironmentVariable(TestServer.Variable);
        var server = await TestServer.FindAsync(
            named, PrivateTestCluster.StartAsync, ContainerServer.StartAsync, cancel).ConfigureAwait(false);
        if (!string.IsNullOrWhiteSpace(named))
        {
            // A private cluster goes as a whole; a named server would otherwise keep every run's template.
            AppDomain.CurrentDomain.ProcessExit += (_, _) => server.DropClosed();
        }

        await server.MakeTemplateAsync(PrepareTemplate, cancel).ConfigureAwait(false);
        return server;
    }

    private string Connect(string server) => new NpgsqlConnectionStringBuilder(server)
    {
        Database = Name,
        Pooling = true,
        IncludeErrorDetail = true,
    }.ConnectionString;
}
