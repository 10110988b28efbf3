using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using Nursery.Data.Cluster;

namespace Nursery.Testing.Database;

/// <summary>The private cluster of one test process, in a temporary folder that goes when the process goes, however it ends.</summary>
public static class PrivateTestCluster
{
    private const string _prefix = "nursery-test-";

    // A test host may be killed, so the process cannot be trusted to clean up after itself: this waits for its end instead.
    private const string _watch =
        """
        exec </dev/null >/dev/null 2>&1
        tail --pid="$1" -f /dev/null
        record="$2/postgres/data/postmaster.pid"
        if [ -e "$record" ]; then kill -QUIT "$(head -n 1 "$record")"; fi
        for _ in $(seq 100); do [ -e "$record" ] || break; sleep 0.1; done
        rm -rf "$2"
        """;

    private static PgCluster? _cluster;

    public static async Task<string> StartAsync(CancellationToken cancel)
    {
        await SweepAsync(Path.GetTempPath(), cancel).ConfigureAwait(false);
        var folder = Path.Combine(Path.GetTempPath(), $"{_prefix}{Environment.ProcessId}-{Guid.NewGuid():N}");
        StartWatch(folder);
        _cluster = await PgCluster.StartAsync(
            new PgClusterOptions { DataFolder = folder, Fast = true }, NullLogger.Instance, cancel).ConfigureAwait(false);
        return _cluster.MaintenanceConnectionString;
    }

    /// <summary>Stops and removes what earlier test processes left in a temporary folder; a folder in use is locked and stays.</summary>
    public static async Task SweepAsync(string temporary, CancellationToken cancel)
    {
        foreach (var folder in Directory.EnumerateDirectories(temporary, _prefix + "*"))
        {
            var owner = Path.GetFileName(folder)[_prefix.Length..].Split('-')[0];
            if (Directory.Exists("/proc/" + owner))
            {
                continue;
            }

            try
            {
                await PgCluster.StopLeftBehindAsync(new PgClusterOptions { DataFolder = folder }, cancel).ConfigureAwait(false);
                Directory.Delete(folder, recursive: true);
            }
            catch (Exception e) when (e is DataFolderUnreachable or UnauthorizedAccessException or DirectoryNotFoundException)
            {
                // Another user's folder is theirs to sweep, and one that vanished meanwhile was swept by its own watch.
                Debug.WriteLine(e.Message);
            }
        }
    }

    private static void StartWatch(string folder)
    {
        string[] words = ["/bin/sh", "-c", _watch, "sh", Environment.ProcessId.ToString(CultureInfo.InvariantCulture), folder];
        using var watch = Process.Start(new ProcessStartInfo("setsid", words) { WorkingDirectory = "/" });
    }
}
