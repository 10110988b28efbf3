using Microsoft.Extensions.Logging.Abstractions;
using Nursery.Data.Cluster;
using Xunit;

namespace Nursery.Data.Tests.Cluster;

public sealed class ClusterRefusalTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task StartAsync_NoPrograms_SaysWhichPackage()
    {
        var options = new PgClusterOptions { DataFolder = _folder.Path, VersionFolders = ["/nowhere"], SearchPath = "" };

        var refused = await Assert.ThrowsAsync<PostgreSqlMissing>(() => PgCluster.StartAsync(options, NullLogger.Instance));

        Assert.Contains("postgresql-15", refused.Message, StringComparison.Ordinal);
        Assert.Contains("/nowhere", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StartAsync_OnlyOlderPrograms_SaysWhichPackage()
    {
        Fake("versions/14/bin");
        var options = new PgClusterOptions { DataFolder = _folder.Path, VersionFolders = [Path.Combine(_folder.Path, "versions")], SearchPath = "" };

        await Assert.ThrowsAsync<PostgreSqlMissing>(() => PgCluster.StartAsync(options, NullLogger.Instance));
    }

    [Fact]
    public void Find_SeveralVersions_TakesTheNewestOrTheOneThatMadeTheCluster()
    {
        Fake("versions/15/bin");
        Fake("versions/17/bin");
        var options = new PgClusterOptions { DataFolder = _folder.Path, VersionFolders = [Path.Combine(_folder.Path, "versions")], SearchPath = "" };

        Assert.Equal(17, PgPrograms.Find(options, _folder.Path, madeBy: null).Version);
        Assert.Equal(15, PgPrograms.Find(options, _folder.Path, madeBy: 15).Version);
        var refused = Assert.Throws<PostgreSqlMissing>(() => PgPrograms.Find(options, _folder.Path, madeBy: 16));
        Assert.Contains("postgresql-16", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Find_OnlyPgConfigOnPath_IsUsed()
    {
        var programs = Fake("elsewhere");
        var config = Path.Combine(programs, "pg_config");
        File.WriteAllText(config, $"#!/bin/sh\ncase $1 in --version) echo 'PostgreSQL 16.4';; --bindir) echo '{programs.Replace("'", "'\\''", StringComparison.Ordinal)}';; esac\n");
        File.SetUnixFileMode(config, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        var options = new PgClusterOptions { DataFolder = _folder.Path, VersionFolders = [], SearchPath = "/nowhere:" + programs };

        Assert.Equal(16, PgPrograms.Find(options, _folder.Path, madeBy: null).Version);
    }

    [Fact]
    public async Task StartAsync_FolderThatCannotBeReachedOrWritten_SaysSo()
    {
        // As root: PostgreSQL's user cannot pass a closed folder. As anybody else: nobody may write under /proc.
        var closed = Path.Combine(_folder.Path, "closed");
        Directory.CreateDirectory(closed, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        var folder = Environment.IsPrivilegedProcess ? Path.Combine(closed, "data") : "/proc/nursery";

        var refused = await Assert.ThrowsAsync<DataFolderUnreachable>(
            () => PgCluster.StartAsync(new PgClusterOptions { DataFolder = folder }, NullLogger.Instance));

        Assert.Contains(folder, refused.Message, StringComparison.Ordinal);
        Assert.Contains("NURSERY_DATA", refused.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(folder));
    }

    private string Fake(string folder)
    {
        var programs = Directory.CreateDirectory(Path.Combine(_folder.Path, folder)).FullName;
        foreach (var program in new[] { "initdb", "pg_ctl", "postgres" })
        {
            File.WriteAllText(Path.Combine(programs, program), "");
        }

        return programs;
    }
}
