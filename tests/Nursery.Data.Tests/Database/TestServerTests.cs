using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;
using Nursery.Data.Cluster;
using Nursery.Data.Tests.Cluster;
using Nursery.Testing.Database;
using Xunit;

namespace Nursery.Data.Tests.Database;

public sealed class TestServerTests
{
    private static Func<CancellationToken, Task<string>> NotAsked => _ => throw new InvalidOperationException("was asked");

    private static Func<CancellationToken, Task<string>> Missing => _ => throw PostgreSqlMissing.NoPrograms(["/nowhere"]);

    [Fact]
    public async Task FindAsync_ServerNamed_UsesItAndPreparesOneTemplate()
    {
        // A server of its own: preparing a named one sets the app's password for everybody on it.
        using var folder = new TemporaryFolder();
        await using var named = await PgCluster.StartAsync(new PgClusterOptions { DataFolder = folder.Path, Fast = true }, NullLogger.Instance);
        var prepared = 0;
        var server = await TestServer.FindAsync(named.MaintenanceConnectionString, NotAsked, NotAsked, CancellationToken.None);
        await server.MakeTemplateAsync(
            async owner =>
            {
                prepared++;
                await using var connection = new NpgsqlConnection(owner);
                await connection.OpenAsync();
                await using var command = new NpgsqlCommand("CREATE TABLE from_template (id int)", connection);
                await command.ExecuteNonQueryAsync();
            },
            CancellationToken.None);
        await server.CloneAsync("test_named");

        await using (var source = NpgsqlDataSource.Create(
            new NpgsqlConnectionStringBuilder(server.MaintenanceConnectionString) { Database = "test_named", Pooling = false }.ConnectionString))
        {
            await using var command = source.CreateCommand("SELECT to_regclass('from_template') IS NOT NULL");
            Assert.Equal(true, await command.ExecuteScalarAsync());
        }

        Assert.Equal(1, prepared);
        await named.StopAsync();
    }

    [Fact]
    public async Task FindAsync_NoneNamed_PrefersThePrivateCluster()
    {
        var server = await TestServer.FindAsync(null, _ => Task.FromResult("Host=private"), NotAsked, CancellationToken.None);

        Assert.Contains("Host=private", server.MaintenanceConnectionString, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FindAsync_NoPrograms_TakesAContainer()
    {
        var server = await TestServer.FindAsync(null, Missing, _ => Task.FromResult("Host=container"), CancellationToken.None);

        Assert.Contains("Host=container", server.MaintenanceConnectionString, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FindAsync_NothingAtAll_FailsNamingEveryWay()
    {
        var refused = await Assert.ThrowsAsync<InvalidOperationException>(
            () => TestServer.FindAsync(null, Missing, _ => throw new NotSupportedException("no engine"), CancellationToken.None));

        Assert.Contains("postgresql-15", refused.Message, StringComparison.Ordinal);
        Assert.Contains("NURSERY_TEST_DB", refused.Message, StringComparison.Ordinal);
        Assert.Contains("no engine", refused.Message, StringComparison.Ordinal);
    }
}
