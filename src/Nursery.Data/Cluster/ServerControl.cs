using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Logging;

namespace Nursery.Data.Cluster;

/// <summary>Makes, starts and stops the server of one folder. All paths given to PostgreSQL are relative, so no shell ever quotes them.</summary>
internal sealed class ServerControl(ClusterFolder folder, PgPrograms programs, bool fast)
{
    private const int _portsTried = 5;
    private const long _largestLog = 10_000_000;

    private static readonly string[] _settings =
    [
        "listen_addresses=127.0.0.1", "unix_socket_directories=", "max_connections=200", "timezone=UTC", "log_timezone=UTC",
        "password_encryption=scram-sha-256",
    ];

    private static readonly string[] _fastSettings =
    [
        "fsync=off", "synchronous_commit=off", "full_page_writes=off", "wal_level=minimal", "max_wal_senders=0", "max_connections=300",
    ];

    /// <summary>Makes the cluster if there is none. It is built beside its place and moved there whole.</summary>
    public async Task<ClusterPasswords> MakeClusterAsync(ILogger logger, CancellationToken cancel)
    {
        if (folder.Version is not null)
        {
            return File.Exists(folder.PasswordFile)
                ? ClusterPasswords.Read(folder.PasswordFile)
                : throw DataFolderUnreachable.PasswordsLost(folder.PasswordFile);
        }

        logger.LogInformation("Making a private PostgreSQL {Version} in {Folder}.", programs.Version, folder.Root);
        await folder.CreateServerFolderAsync(cancel).ConfigureAwait(false);
        var passwords = ClusterPasswords.Create(folder.PasswordFile);
        var draft = folder.Data + ".new";
        if (Directory.Exists(draft))
        {
            Directory.Delete(draft, recursive: true);
        }

        string[] arguments =
        [
            "-D", "data.new", "-U", ClusterDatabase.OwnerRole, "-E", "UTF8", "--locale=C.UTF-8",
            "--auth-host=scram-sha-256", "--auth-local=scram-sha-256", "--pwfile=password",
        ];
        var secretFile = Path.Combine(folder.ServerFolder, "password");
        ProgramRun made;
        try
        {
            made = await programs.RunWithSecretAsync(
                "initdb", folder.ServerFolder, "password", passwords.Owner, fast ? [.. arguments, "--no-sync"] : arguments, cancel).ConfigureAwait(false);
        }
        finally
        {
            File.Delete(secretFile);
        }

        if (!made.Succeeded)
        {
            throw ClusterDoesNotStart.Saying("be made", folder.Root, made.Output);
        }

        Directory.Move(draft, folder.Data);
        return passwords;
    }

    /// <summary>Starts the server on a free port and returns it.</summary>
    public async Task<int> StartAsync(CancellationToken cancel)
    {
        RunningServer.ForgetStale(folder);
        if (new FileInfo(folder.Log) is { Exists: true, Length: > _largestLog })
        {
            File.Move(folder.Log, folder.Log + ".old", overwrite: true);
        }

        for (var attempt = 1; ; attempt++)
        {
            // Free when asked; somebody may still take it before PostgreSQL does, hence the attempts.
            var port = FreePort();
            var settings = string.Join(' ', (fast ? [.. _settings, .. _fastSettings] : _settings).Select(s => "-c " + s));
            var started = await programs.RunAsync(
                "pg_ctl",
                folder.ServerFolder,
                ["-D", "data", "-l", "log", "-w", "-t", "300", "-o", string.Create(CultureInfo.InvariantCulture, $"-p {port} {settings}"), "start"],
                cancel).ConfigureAwait(false);
            if (started.Succeeded)
            {
                return port;
            }

            var said = folder.LogTail();
            if (attempt == _portsTried || !said.Contains("Address already in use", StringComparison.Ordinal))
            {
                throw ClusterDoesNotStart.Saying("start", folder.Root, started.Output + said);
            }
        }
    }

    public async Task StopAsync(CancellationToken cancel)
    {
        var stopped = await StopAsync("fast", cancel).ConfigureAwait(false);
        if (!stopped.Succeeded && RunningServer.In(folder) is not null)
        {
            stopped = await StopAsync("immediate", cancel).ConfigureAwait(false);
            if (!stopped.Succeeded && RunningServer.In(folder) is not null)
            {
                throw ClusterDoesNotStart.Saying("stop", folder.Root, stopped.Output);
            }
        }
    }

    private Task<ProgramRun> StopAsync(string mode, CancellationToken cancel) =>
        programs.RunAsync("pg_ctl", folder.ServerFolder, ["-D", "data", "-w", "-t", "5", "-m", mode, "stop"], cancel);

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
