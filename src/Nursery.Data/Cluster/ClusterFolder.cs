using System.Globalization;

namespace Nursery.Data.Cluster;

/// <summary>
/// The data folder: `lock`, `database-passwords.json` and `postgres/` (the cluster in `data`, the server's log in `log`).
/// As root, only `postgres/` belongs to user postgres; everything else stays root's.
/// </summary>
internal sealed class ClusterFolder(string root)
{
    private const UnixFileMode _private = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    public string Root { get; } = Path.GetFullPath(root);

    public string LockFile => Path.Combine(Root, "lock");

    public string PasswordFile => Path.Combine(Root, "database-passwords.json");

    public string ServerFolder => Path.Combine(Root, "postgres");

    public string Data => Path.Combine(ServerFolder, "data");

    public string Log => Path.Combine(ServerFolder, "log");

    public string PostmasterFile => Path.Combine(Data, "postmaster.pid");

    /// <summary>The version that made the cluster; null when there is none yet. It appears by one rename, so half a cluster never counts.</summary>
    public int? Version
    {
        get
        {
            var file = Path.Combine(Data, "PG_VERSION");
            return File.Exists(file) ? int.Parse(File.ReadAllText(file).Trim(), CultureInfo.InvariantCulture) : null;
        }
    }

    public async Task CreateAsync(CancellationToken cancel)
    {
        await RefuseWhenUnreachableAsync(cancel).ConfigureAwait(false);
        try
        {
            // Others may pass through root's folder (PostgreSQL's user has to) but not list it.
            Directory.CreateDirectory(
                Root, PgPrograms.RunAsServerUser ? _private | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute : _private);
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            throw DataFolderUnreachable.NotOurs(Root, e);
        }

        await RefuseWhenUnreachableAsync(cancel).ConfigureAwait(false);
    }

    /// <summary>Exclusive until disposed or until the process ends in whatever way: .NET keeps FileShare.None by flock, which dies with us.</summary>
    public IDisposable? TryLock()
    {
        try
        {
            return new FileStream(LockFile, new FileStreamOptions
            {
                Mode = FileMode.OpenOrCreate,
                Access = FileAccess.ReadWrite,
                Share = FileShare.None,
                UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite,
            });
        }
        catch (UnauthorizedAccessException e)
        {
            throw DataFolderUnreachable.NotOurs(Root, e);
        }
        catch (IOException)
        {
            return null;
        }
    }

    public async Task CreateServerFolderAsync(CancellationToken cancel)
    {
        if (!PgPrograms.RunAsServerUser)
        {
            Directory.CreateDirectory(ServerFolder, _private);
            return;
        }

        var user = PgPrograms.ServerUser;
        var made = await PgPrograms.RunPlainAsync(["install", "-d", "-m", "700", "-o", user, "-g", user, ServerFolder], cancel).ConfigureAwait(false);
        if (!made.Succeeded)
        {
            throw ClusterDoesNotStart.Saying("get its folder", Root, made.Output);
        }
    }

    /// <summary>The last lines of the server's log, where PostgreSQL says why it did not start.</summary>
    public string LogTail() => File.Exists(Log) ? string.Join(" / ", File.ReadLines(Log).TakeLast(5)) : "";

    private async Task RefuseWhenUnreachableAsync(CancellationToken cancel)
    {
        if (!PgPrograms.RunAsServerUser)
        {
            return;
        }

        var existing = Ancestors().First(Directory.Exists);
        var reached = await PgPrograms.RunAsServerUserAsync(["test", "-x", existing], cancel).ConfigureAwait(false);
        if (!reached.Succeeded)
        {
            var closed = Ancestors().Reverse()
                .FirstOrDefault(f => Directory.Exists(f) && !File.GetUnixFileMode(f).HasFlag(UnixFileMode.OtherExecute), existing);
            throw DataFolderUnreachable.ClosedTo(PgPrograms.ServerUser, Root, closed);
        }
    }

    private IEnumerable<string> Ancestors()
    {
        for (var folder = Root; folder is not null; folder = Path.GetDirectoryName(folder))
        {
            yield return folder;
        }
    }
}
