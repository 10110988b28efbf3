using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using Npgsql;
using Nursery.Data.Cluster;

namespace Nursery.Testing.Database;

/// <summary>The PostgreSQL the tests of one process share: the one named in NURSERY_TEST_DB, else a private one, else a container.</summary>
public sealed class TestServer
{
    public const string Variable = "NURSERY_TEST_DB";

    private readonly string _template = $"template_{Guid.NewGuid():N}";
    private readonly ConcurrentBag<string> _closed = [];

    private TestServer(string maintenanceConnection, string appPassword)
    {
        MaintenanceConnectionString = new NpgsqlConnectionStringBuilder(maintenanceConnection) { Pooling = false }.ConnectionString;
        AppConnectionString = new NpgsqlConnectionStringBuilder(maintenanceConnection)
        {
            Username = ClusterDatabase.AppRole,
            Password = appPassword,
        }.ConnectionString;
        AppPassword = appPassword;
    }

    public string MaintenanceConnectionString { get; }

    public string AppConnectionString { get; }

    private string AppPassword { get; }

    /// <summary>Takes the first server there is. Every refusal is kept, so that the last error says all that was tried.</summary>
    public static async Task<TestServer> FindAsync(
        string? named,
        Func<CancellationToken, Task<string>> privateCluster,
        Func<CancellationToken, Task<string>> container,
        CancellationToken cancel)
    {
        if (!string.IsNullOrWhiteSpace(named))
        {
            return Of(named);
        }

        try
        {
            return Of(await privateCluster(cancel).ConfigureAwait(false));
        }
        catch (PostgreSqlMissing missing)
        {
            try
            {
                return Of(await container(cancel).ConfigureAwait(false));
            }
            catch (Exception noContainer) when (noContainer is not OperationCanceledException)
            {
                throw new InvalidOperationException(
                    $"The tests need a real PostgreSQL. {missing.Message} Or name a server in {Variable}. No container could be started either: {noContainer.Message}",
                    new AggregateException(missing, noContainer));
            }
        }
    }

    /// <summary>The one template: roles, extension, Hangfire's schema, then whatever <paramref name="prepare"/> adds.</summary>
    public async Task MakeTemplateAsync(Func<string, Task> prepare, CancellationToken cancel)
    {
        await ClusterDatabase.CreateAppRoleAsync(MaintenanceConnectionString, AppPassword, cancel).ConfigureAwait(false);
        await ClusterDatabase.CreateDatabaseAsync(MaintenanceConnectionString, _template, cancel).ConfigureAwait(false);
        var owner = new NpgsqlConnectionStringBuilder(MaintenanceConnectionString) { Database = _template }.ConnectionString;
        await ClusterDatabase.PrepareAsync(owner, cancel).ConfigureAwait(false);
        await prepare(owner).ConfigureAwait(false);

        NpgsqlConnection.ClearAllPools();
        await CloseAsync(_template).ConfigureAwait(false);
    }

    /// <summary>Copies the template, or another database that was closed.</summary>
    public Task CloneAsync(string name, string? closed = null) => ExecuteAsync($"CREATE DATABASE {name} TEMPLATE {closed ?? _template}");

    /// <summary>A database with a connection cannot be copied; closing it for good makes a stray one impossible.</summary>
    public async Task CloseAsync(string name)
    {
        await ExecuteAsync($"ALTER DATABASE {name} ALLOW_CONNECTIONS false").ConfigureAwait(false);
        _closed.Add(name);
    }

    /// <summary>Blocks, because a process that exits does not wait for tasks.</summary>
    public void DropClosed()
    {
        foreach (var name in _closed)
        {
            DropAsync(name).GetAwaiter().GetResult();
        }
    }

    public Task DropAsync(string name) => ExecuteAsync($"DROP DATABASE IF EXISTS {name} WITH (FORCE)");

    // Several processes may share a named server, and its roles belong to all of them: the same server gives the same password.
    private static TestServer Of(string connection) =>
        new(connection, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes("nursery_app|" + connection))));

    private async Task ExecuteAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(MaintenanceConnectionString);
        await connection.OpenAsync().ConfigureAwait(false);
        await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The names are made here, from letters and digits.
        command.CommandText = sql;
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync().ConfigureAwait(false);
    }
}
