using System.Diagnostics;
using Microsoft.Extensions.Logging;
using Npgsql;

namespace Nursery.Data.Cluster;

/// <summary>
/// The private PostgreSQL of one data folder: made on first use, reached on 127.0.0.1 only, stopped by its one owner. A server left
/// running by an owner that was killed is adopted by the next.
/// </summary>
public sealed class PgCluster : IAsyncDisposable
{
    private static readonly TimeSpan _patience = TimeSpan.FromSeconds(60);

    private readonly ServerControl _control;
    private readonly IDisposable? _ownership;
    private bool _stopped;

    private PgCluster(ServerControl control, IDisposable? ownership, ClusterPasswords passwords, int port, bool adopted)
    {
        (_control, _ownership, Port, Adopted) = (control, ownership, port, adopted);
        OwnerConnectionString = Connection(port, ClusterDatabase.OwnerRole, passwords.Owner, ClusterDatabase.Name);
        AppConnectionString = Connection(port, ClusterDatabase.AppRole, passwords.App, ClusterDatabase.Name);
        MaintenanceConnectionString = Maintenance(port, passwords);
        AppPassword = passwords.App;
    }

    /// <summary>Role nursery, superuser of this cluster: migrations and backups.</summary>
    public string OwnerConnectionString { get; }

    /// <summary>Role nursery_app, which has only what the migrations grant it.</summary>
    public string AppConnectionString { get; }

    /// <summary>Role nursery in database postgres, without a pool: creating and dropping databases.</summary>
    public string MaintenanceConnectionString { get; }

    public string AppPassword { get; }

    public int Port { get; }

    /// <summary>Whether the server was already running, left behind by an earlier owner.</summary>
    public bool Adopted { get; }

    /// <summary>Whether this process keeps the server: only then does stopping stop it.</summary>
    public bool Owned => _ownership is not null;

    /// <summary>Becomes the owner of the data folder's cluster and starts it. Refuses when somebody else owns it.</summary>
    public static async Task<PgCluster> StartAsync(PgClusterOptions options, ILogger logger, CancellationToken cancel = default)
    {
        var folder = new ClusterFolder(options.DataFolder);
        await folder.CreateAsync(cancel).ConfigureAwait(false);
        return await StartOwnedAsync(folder, folder.TryLock() ?? throw new DataFolderInUse(folder.Root), options, logger, cancel).ConfigureAwait(false);
    }

    /// <summary>For verbs beside serve: connects to the cluster somebody else runs, or owns it for the length of the verb.</summary>
    public static async Task<PgCluster> UseAsync(PgClusterOptions options, ILogger logger, CancellationToken cancel = default)
    {
        var folder = new ClusterFolder(options.DataFolder);
        await folder.CreateAsync(cancel).ConfigureAwait(false);
        var waited = Stopwatch.StartNew();
        while (true)
        {
            if (folder.TryLock() is { } ownership)
            {
                return await StartOwnedAsync(folder, ownership, options, logger, cancel).ConfigureAwait(false);
            }

            // The owner may be starting just now: its server, role and database appear within seconds.
            if (RunningServer.In(folder) is { } server && File.Exists(folder.PasswordFile))
            {
                var passwords = ClusterPasswords.Read(folder.PasswordFile);
                if (await AnswersAsync(Connection(server.Port, ClusterDatabase.AppRole, passwords.App, ClusterDatabase.Name), cancel).ConfigureAwait(false))
                {
                    var control = new ServerControl(folder, PgPrograms.Find(options, folder.Root, folder.Version), options.Fast);
                    return new PgCluster(control, ownership: null, passwords, server.Port, adopted: false);
                }
            }

            if (waited.Elapsed > _patience)
            {
                throw new DataFolderInUse(folder.Root);
            }

            await Task.Delay(100, cancel).ConfigureAwait(false);
        }
    }

    /// <summary>Stops a server whose owner is gone. False when there is an owner or nothing runs.</summary>
    public static async Task<bool> StopLeftBehindAsync(PgClusterOptions options, CancellationToken cancel = default)
    {
        var folder = new ClusterFolder(options.DataFolder);
        if (!File.Exists(folder.LockFile))
        {
            return false;
        }

        using var ownership = folder.TryLock();
        if (ownership is null || RunningServer.In(folder) is null)
        {
            return false;
        }

        await new ServerControl(folder, PgPrograms.Find(options, folder.Root, folder.Version), options.Fast).StopAsync(cancel).ConfigureAwait(false);
        return true;
    }

    /// <summary>Stops the server if this process owns it. Not cancellable: half a stop helps nobody, and it ends within ten seconds.</summary>
    public async Task StopAsync()
    {
        if (_stopped || _ownership is null)
        {
            return;
        }

        _stopped = true;
        try
        {
            await _control.StopAsync(CancellationToken.None).ConfigureAwait(false);
        }
        finally
        {
            _ownership.Dispose();
        }
    }

    /// <summary>For tests of adoption: gives up ownership as a killed process does, leaving the server running.</summary>
    internal void Abandon()
    {
        _stopped = true;
        _ownership?.Dispose();
    }

    public async ValueTask DisposeAsync() => await StopAsync().ConfigureAwait(false);

    private static async Task<PgCluster> StartOwnedAsync(
        ClusterFolder folder, IDisposable ownership, PgClusterOptions options, ILogger logger, CancellationToken cancel)
    {
        try
        {
            var control = new ServerControl(folder, PgPrograms.Find(options, folder.Root, folder.Version), options.Fast);
            var passwords = await control.MakeClusterAsync(logger, cancel).ConfigureAwait(false);
            var left = RunningServer.In(folder);
            var port = left is null ? await control.StartAsync(cancel).ConfigureAwait(false) : left.Port;
            if (left is not null)
            {
                logger.LogWarning("A PostgreSQL left running in {Folder} is taken over.", folder.Root);
            }

            try
            {
                await SetUpAsync(folder, passwords, port, cancel).ConfigureAwait(false);
            }
            catch when (left is null)
            {
                await control.StopAsync(CancellationToken.None).ConfigureAwait(false);
                throw;
            }

            logger.LogInformation("The private PostgreSQL of {Folder} answers on 127.0.0.1:{Port}.", folder.Root, port);
            return new PgCluster(control, ownership, passwords, port, adopted: left is not null);
        }
        catch
        {
            ownership.Dispose();
            throw;
        }
    }

    private static async Task SetUpAsync(ClusterFolder folder, ClusterPasswords passwords, int port, CancellationToken cancel)
    {
        var maintenance = Maintenance(port, passwords);
        var waited = Stopwatch.StartNew();
        while (!await AnswersAsync(maintenance, cancel).ConfigureAwait(false))
        {
            if (waited.Elapsed > _patience)
            {
                throw ClusterDoesNotStart.Saying("be reached with its own password", folder.Root, folder.LogTail());
            }

            await Task.Delay(200, cancel).ConfigureAwait(false);
        }

        await ClusterDatabase.CreateAppRoleAsync(maintenance, passwords.App, cancel).ConfigureAwait(false);
        await ClusterDatabase.CreateDatabaseAsync(maintenance, ClusterDatabase.Name, cancel).ConfigureAwait(false);
        var owner = new NpgsqlConnectionStringBuilder(maintenance) { Database = ClusterDatabase.Name };
        await ClusterDatabase.PrepareAsync(owner.ConnectionString, cancel).ConfigureAwait(false);
    }

    private static async Task<bool> AnswersAsync(string connectionString, CancellationToken cancel)
    {
        try
        {
            await using var connection = new NpgsqlConnection(
                new NpgsqlConnectionStringBuilder(connectionString) { Pooling = false }.ConnectionString);
            await connection.OpenAsync(cancel).ConfigureAwait(false);
            return true;
        }
        catch (NpgsqlException)
        {
            return false;
        }
    }

    private static string Maintenance(int port, ClusterPasswords passwords) =>
        new NpgsqlConnectionStringBuilder(Connection(port, ClusterDatabase.OwnerRole, passwords.Owner, "postgres")) { Pooling = false }.ConnectionString;

    private static string Connection(int port, string role, string password, string database) => new NpgsqlConnectionStringBuilder
    {
        Host = "127.0.0.1",
        Port = port,
        Username = role,
        Password = password,
        Database = database,
        ApplicationName = "nursery",
        // Loopback needs no cipher, and asking for Kerberos prints a warning where its library is missing.
        SslMode = SslMode.Disable,
        GssEncryptionMode = GssEncryptionMode.Disable,
    }.ConnectionString;
}
