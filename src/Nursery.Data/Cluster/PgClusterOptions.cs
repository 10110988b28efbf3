namespace Nursery.Data.Cluster;

/// <summary>Where the private PostgreSQL lives and how it is run.</summary>
public sealed record PgClusterOptions
{
    public const string FolderVariable = "NURSERY_DATA";

    /// <summary>The data folder, absolute. Holds the lock, the passwords and the cluster itself.</summary>
    public required string DataFolder { get; init; }

    /// <summary>For tests: gives up durability for speed. A power cut loses such a cluster.</summary>
    public bool Fast { get; init; }

    /// <summary>Folders that hold one folder a PostgreSQL version, as Debian lays them out.</summary>
    public IReadOnlyList<string> VersionFolders { get; init; } = ["/usr/lib/postgresql"];

    /// <summary>Folders searched for pg_config when no version folder serves; the PATH unless a test says otherwise.</summary>
    public string SearchPath { get; init; } = Environment.GetEnvironmentVariable("PATH") ?? "";

    public static PgClusterOptions FromEnvironment() => new() { DataFolder = DefaultDataFolder() };

    /// <summary>$NURSERY_DATA, else /var/lib/nursery for root and ~/.local/share/nursery for everybody else.</summary>
    public static string DefaultDataFolder()
    {
        var named = Environment.GetEnvironmentVariable(FolderVariable);
        if (!string.IsNullOrWhiteSpace(named))
        {
            return Path.GetFullPath(named);
        }

        return Environment.IsPrivilegedProcess
            ? "/var/lib/nursery"
            : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".local", "share", "nursery");
    }
}
