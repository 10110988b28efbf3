using Npgsql;
using Nursery.Testing.Database;
using Xunit;

namespace Nursery.Data.Tests.Database;

public sealed class TestDatabaseTests(TestDatabase first) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task InitializeAsync_TwoClasses_GetDatabasesApart()
    {
        var second = new TestDatabase();
        await second.InitializeAsync();
        await RunAsync(second.OwnerConnectionString, "CREATE TABLE only_here (id int)");

        Assert.Equal(true, await RunAsync(second.OwnerConnectionString, "SELECT to_regclass('only_here') IS NOT NULL"));
        Assert.Equal(false, await RunAsync(first.OwnerConnectionString, "SELECT to_regclass('only_here') IS NOT NULL"));
        await second.DisposeAsync();
        Assert.Equal(0L, await RunAsync(first.OwnerConnectionString, $"SELECT count(*) FROM pg_database WHERE datname = '{second.Name}'"));
    }

    [Fact]
    public async Task Copy_OfAClosedDatabase_BeginsAsItWasAndGoesItsOwnWay()
    {
        var loaded = new TestDatabase();
        await loaded.InitializeAsync();
        await RunAsync(loaded.AppConnectionString, "SELECT 1");
        await RunAsync(loaded.OwnerConnectionString, "CREATE TABLE loaded (id int)");
        await loaded.CloseAsync();
        await Assert.ThrowsAsync<PostgresException>(() => RunAsync(loaded.OwnerConnectionString, "SELECT 1"));

        var (one, two) = (loaded.Copy(), loaded.Copy());
        await one.InitializeAsync();
        await two.InitializeAsync();
        await RunAsync(one.OwnerConnectionString, "INSERT INTO loaded VALUES (1)");

        Assert.Equal(1L, await RunAsync(one.OwnerConnectionString, "SELECT count(*) FROM loaded"));
        Assert.Equal(0L, await RunAsync(two.OwnerConnectionString, "SELECT count(*) FROM loaded"));
        await one.DisposeAsync();
        await two.DisposeAsync();
        await loaded.DisposeAsync();
    }

    [Fact]
    public async Task AppConnectionString_Role_IsNotTheOwner() =>
        Assert.Equal("nursery_app", await RunAsync(first.AppConnectionString, "SELECT current_user::text"));

    private static async Task<object?> RunAsync(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        return await command.ExecuteScalarAsync();
    }
}
