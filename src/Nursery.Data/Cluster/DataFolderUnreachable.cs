namespace Nursery.Data.Cluster;

public sealed class DataFolderUnreachable(string sentence, Exception? inner = null) : ClusterRefusal(sentence, inner)
{
    public static DataFolderUnreachable ClosedTo(string user, string folder, string closed) => new(
        $"PostgreSQL runs as user {user}, who cannot reach {folder} because {closed} is closed to other users: "
        + $"name another folder in {PgClusterOptions.FolderVariable}, such as /var/lib/nursery.");

    public static DataFolderUnreachable NotOurs(string folder, Exception inner) => new(
        $"The data folder {folder} cannot be written by user {Environment.UserName}: "
        + $"run as the user it belongs to, or name another folder in {PgClusterOptions.FolderVariable}.",
        inner);

    public static DataFolderUnreachable PasswordsLost(string file) => new(
        $"The database exists but its passwords are missing: bring {file} back from your backup.");
}
