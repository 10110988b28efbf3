namespace Nursery.Data.Cluster;

public sealed class PostgreSqlMissing(string sentence, Exception? inner = null) : ClusterRefusal(sentence, inner)
{
    public static PostgreSqlMissing NoPrograms(IEnumerable<string> looked) => new(
        $"No PostgreSQL {PgPrograms.OldestVersion} or newer was found in {string.Join(", ", looked)} or on the PATH: "
        + "install the Debian package postgresql-15 (apt-get install --no-install-recommends postgresql-15).");

    public static PostgreSqlMissing OtherVersion(string folder, int version) => new(
        $"The database in {folder} was made by PostgreSQL {version}, whose programs are not installed: "
        + $"install the Debian package postgresql-{version}.");

    public static PostgreSqlMissing NoUser() => new(
        "PostgreSQL cannot run as root and there is no user named postgres: install the Debian package postgresql-15, which adds that user.");

    public static PostgreSqlMissing NoExtension(string extension, Exception inner) => new(
        $"This PostgreSQL lacks the extension {extension}: install the contrib package that belongs to it (on Debian it is part of postgresql-15).",
        inner);
}
