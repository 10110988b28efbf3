using System.Diagnostics;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;
using Nursery.Data.Cluster;
using Xunit;

namespace Nursery.Data.Tests.Cluster;

public sealed class PgClusterTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private PgClusterOptions Options => new() { DataFolder = _folder.Path, Fast = true };

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task StartAsync_NewFolder_GivesTwoRolesAndTheExtension()
    {
        await using var cluster = await StartAsync();

        Assert.Equal("nursery|t", await AskAsync(cluster.OwnerConnectionString, "SELECT current_user || '|' || current_setting('is_superuser')::bool::text::char"));
        Assert.Equal("nursery_app|off", await AskAsync(cluster.AppConnectionString, "SELECT current_user || '|' || current_setting('is_superuser')"));
        Assert.Equal("nursery", await AskAsync(cluster.AppConnectionString, "SELECT current_database()::text"));
        Assert.Equal("btree_gist", await AskAsync(cluster.AppConnectionString, "SELECT extname::text FROM pg_extension WHERE extname = 'btree_gist'"));
        Assert.Equal("nursery_app", await AskAsync(cluster.OwnerConnectionString, "SELECT nspowner::regrole::text FROM pg_namespace WHERE nspname = 'hangfire'"));
    }

    [Fact]
    public async Task StartAsync_AppRole_MayNotMakeTablesOfItsOwn()
    {
        await using var cluster = await StartAsync();

        var refused = await Assert.ThrowsAsync<PostgresException>(() => AskAsync(cluster.AppConnectionString, "CREATE TABLE public.x (id int)"));
        Assert.Equal(PostgresErrorCodes.InsufficientPrivilege, refused.SqlState);
    }

    [Fact]
    public async Task StartAsync_NewFolder_ListensOnLoopbackOnly()
    {
        await using var cluster = await StartAsync();

        Assert.Equal("127.0.0.1", await AskAsync(cluster.OwnerConnectionString, "SHOW listen_addresses"));
        Assert.Equal("", await AskAsync(cluster.OwnerConnectionString, "SHOW unix_socket_directories"));
        Assert.Equal("off", await AskAsync(cluster.OwnerConnectionString, "SHOW fsync"));
    }

    [Fact]
    public async Task StartAsync_WrongPassword_IsRefused()
    {
        await using var cluster = await StartAsync();
        var wrong = new NpgsqlConnectionStringBuilder(cluster.OwnerConnectionString) { Password = "wrong", Pooling = false };

        var refused = await Assert.ThrowsAsync<PostgresException>(() => AskAsync(wrong.ConnectionString, "SELECT 'in'"));
        Assert.Equal(PostgresErrorCodes.InvalidPassword, refused.SqlState);
    }

    [Fact]
    public async Task StartAsync_NewFolder_KeepsPasswordsFromOthers()
    {
        await using var cluster = await StartAsync();

        var file = Path.Combine(_folder.Path, "database-passwords.json");
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        Assert.False(File.Exists(Path.Combine(_folder.Path, "postgres", "password")));
        // 32 random bytes make 43 characters of base64.
        Assert.Equal(43, cluster.AppPassword.Length);
        Assert.DoesNotContain(cluster.AppPassword, cluster.OwnerConnectionString, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StartAsync_SecondOwner_IsRefusedNamingTheFolder()
    {
        await using var cluster = await StartAsync();

        var refused = await Assert.ThrowsAsync<DataFolderInUse>(StartAsync);
        Assert.Contains(_folder.Path, refused.Message, StringComparison.Ordinal);
        Assert.Equal("still here", await AskAsync(cluster.AppConnectionString, "SELECT 'still here'"));
    }

    [Fact]
    public async Task StartAsync_LockHeldByAnotherProcess_IsRefused()
    {
        Directory.CreateDirectory(_folder.Path);
        using var other = Process.Start(new ProcessStartInfo("flock", ["-x", Path.Combine(_folder.Path, "lock"), "sleep", "60"]))!;
        try
        {
            while (!File.Exists(Path.Combine(_folder.Path, "lock")))
            {
                await Task.Delay(20);
            }

            await Task.Delay(200);
            await Assert.ThrowsAsync<DataFolderInUse>(StartAsync);
        }
        finally
        {
            other.Kill(entireProcessTree: true);
            await other.WaitForExitAsync();
        }
    }

    [Fact]
    public async Task StartAsync_OwnerGoneServerLeft_IsAdopted()
    {
        var first = await StartAsync();
        await AskAsync(first.OwnerConnectionString, "CREATE TABLE kept AS SELECT 'kept' AS word");
        first.Abandon();

        await using var second = await StartAsync();

        Assert.True(second.Adopted);
        Assert.Equal(first.Port, second.Port);
        Assert.Equal("kept", await AskAsync(second.OwnerConnectionString, "SELECT word FROM kept"));
        await second.StopAsync();
        Assert.False(File.Exists(Path.Combine(_folder.Path, "postgres", "data", "postmaster.pid")));
    }

    [Fact]
    public async Task StartAsync_ServerKilled_RecoversWithItsData()
    {
        // Not a fast one: that may lose its last moments.
        var options = Options with { Fast = false };
        var first = await PgCluster.StartAsync(options, NullLogger.Instance);
        await AskAsync(first.OwnerConnectionString, "CREATE TABLE kept AS SELECT 'kept' AS word");
        first.Abandon();
        await KillServerAsync();

        await using var second = await PgCluster.StartAsync(options, NullLogger.Instance);

        Assert.False(second.Adopted);
        Assert.Equal("kept", await AskAsync(second.OwnerConnectionString, "SELECT word FROM kept"));
    }

    [Fact]
    public async Task StartAsync_RecordedProcessIsSomethingElse_StartsAnyway()
    {
        await (await StartAsync()).StopAsync();
        // A process of PostgreSQL's own user, because only those make it refuse.
        string[] sleep = ["sleep", "60"];
        string[] words = Environment.IsPrivilegedProcess ? ["setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups", .. sleep] : sleep;
        using var other = Process.Start(words[0], words[1..]);
        try
        {
            await Task.Delay(200);
            await File.WriteAllTextAsync(
                Path.Combine(_folder.Path, "postgres", "data", "postmaster.pid"), $"{other.Id}\n{_folder.Path}\n0\n5999\n\n127.0.0.1\n\nready\n");

            await using var cluster = await StartAsync();

            Assert.False(cluster.Adopted);
        }
        finally
        {
            other.Kill();
            await other.WaitForExitAsync();
        }
    }

    [Fact]
    public async Task StartAsync_Restarted_KeepsDataAndPasswords()
    {
        var first = await StartAsync();
        await AskAsync(first.OwnerConnectionString, "CREATE TABLE kept AS SELECT 'kept' AS word");
        await first.StopAsync();

        await using var second = await StartAsync();

        Assert.False(second.Adopted);
        Assert.Equal(first.AppPassword, second.AppPassword);
        Assert.Equal("kept", await AskAsync(second.OwnerConnectionString, "SELECT word FROM kept"));
    }

    [Fact]
    public async Task StartAsync_HalfMadeCluster_IsMadeAnew()
    {
        Directory.CreateDirectory(Path.Combine(_folder.Path, "postgres", "data.new", "base"));

        await using var cluster = await StartAsync();

        Assert.Equal("made", await AskAsync(cluster.AppConnectionString, "SELECT 'made'"));
    }

    [Fact]
    public async Task StartAsync_PasswordsLost_SaysWhichFile()
    {
        await (await StartAsync()).StopAsync();
        var file = Path.Combine(_folder.Path, "database-passwords.json");
        File.Delete(file);

        var refused = await Assert.ThrowsAsync<DataFolderUnreachable>(StartAsync);
        Assert.Contains(file, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StopAsync_OpenConnections_StillStops()
    {
        var cluster = await StartAsync();
        await using var open = new NpgsqlConnection(cluster.AppConnectionString);
        await open.OpenAsync();

        await cluster.StopAsync();

        Assert.False(File.Exists(Path.Combine(_folder.Path, "postgres", "data", "postmaster.pid")));
    }

    [Fact]
    public async Task UseAsync_ClusterRunning_ConnectsWithoutOwning()
    {
        await using var owner = await StartAsync();

        await using (var verb = await PgCluster.UseAsync(Options, NullLogger.Instance))
        {
            Assert.False(verb.Owned);
            Assert.Equal(owner.AppConnectionString, verb.AppConnectionString);
        }

        Assert.Equal("still here", await AskAsync(owner.AppConnectionString, "SELECT 'still here'"));
    }

    [Fact]
    public async Task UseAsync_NothingRunning_OwnsAndStops()
    {
        await using (var verb = await PgCluster.UseAsync(Options, NullLogger.Instance))
        {
            Assert.True(verb.Owned);
        }

        Assert.False(File.Exists(Path.Combine(_folder.Path, "postgres", "data", "postmaster.pid")));
    }

    private Task<PgCluster> StartAsync() => PgCluster.StartAsync(Options, NullLogger.Instance);

    private async Task KillServerAsync()
    {
        var record = Path.Combine(_folder.Path, "postgres", "data", "postmaster.pid");
        using var server = Process.GetProcessById(int.Parse(File.ReadLines(record).First(), System.Globalization.CultureInfo.InvariantCulture));
        server.Kill();
        await server.WaitForExitAsync();
    }

    private static async Task<string?> AskAsync(string connectionString, string sql)
    {
        await using var source = NpgsqlDataSource.Create(connectionString);
        await using var command = source.CreateCommand(sql);
        return (string?)await command.ExecuteScalarAsync();
    }
}
