using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using Nursery.Data.Cluster;
using Nursery.Testing.Database;
using Xunit;

namespace Nursery.Data.Tests.Database;

public sealed class PrivateTestClusterTests
{
    [Fact]
    public async Task SweepAsync_DeadProcess_StopsItsServerAndRemovesItsFolder()
    {
        var temporary = Directory.CreateTempSubdirectory("nursery-sweep-");
        // As root, PostgreSQL's user must be able to pass through.
        File.SetUnixFileMode(temporary.FullName, File.GetUnixFileMode(temporary.FullName) | UnixFileMode.OtherExecute);
        var dead = Path.Combine(temporary.FullName, $"nursery-test-{DeadProcess()}-x");
        var alive = Directory.CreateDirectory(Path.Combine(temporary.FullName, $"nursery-test-{Environment.ProcessId}-x"));
        var cluster = await PgCluster.StartAsync(new PgClusterOptions { DataFolder = dead, Fast = true }, NullLogger.Instance);
        cluster.Abandon();
        var server = File.ReadLines(Path.Combine(dead, "postgres", "data", "postmaster.pid")).First();

        await PrivateTestCluster.SweepAsync(temporary.FullName, CancellationToken.None);

        Assert.False(Directory.Exists(dead));
        Assert.True(alive.Exists);
        await GoneAsync("/proc/" + server);
        temporary.Delete(recursive: true);
    }

    // The record goes a moment before the process does.
    private static async Task GoneAsync(string process)
    {
        for (var tries = 0; Directory.Exists(process); tries++)
        {
            Assert.True(tries < 50, $"{process} still runs");
            await Task.Delay(100);
        }
    }

    private static string DeadProcess()
    {
        using var process = Process.Start("true");
        process.WaitForExit();
        return process.Id.ToString(CultureInfo.InvariantCulture);
    }
}
