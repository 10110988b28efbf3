using Npgsql;

namespace Nursery.Data.Cluster;

/// <summary>What a PostgreSQL must hold before the migrations can run: the app's role, btree_gist and a schema of Hangfire's own.</summary>
public static class ClusterDatabase
{
    public const string OwnerRole = "nursery";
    public const string AppRole = "nursery_app";
    public const string Name = "nursery";

    // Any number, the same for all: two processes setting up the same server take turns.
    private const long _setupLock = 5_410_026_471;

    /// <summary>Makes the app's role with this password. Needs the right to create roles; doing it twice changes nothing.</summary>
    public static async Task CreateAppRoleAsync(string maintenanceConnection, string appPassword, CancellationToken cancel = default)
    {
        await using var connection = new NpgsqlConnection(maintenanceConnection);
        await connection.OpenAsync(cancel).ConfigureAwait(false);
        await ExecuteAsync(connection, $"SELECT pg_advisory_lock({_setupLock})", cancel).ConfigureAwait(false);
        var verb = await ExistsAsync(connection, "SELECT 1 FROM pg_roles WHERE rolname = $1", AppRole, cancel).ConfigureAwait(false)
            ? "ALTER" : "CREATE";
        await ExecuteAsync(
            connection,
            $"{verb} ROLE {AppRole} LOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOREPLICATION NOBYPASSRLS PASSWORD {Literal(appPassword)}",
            cancel).ConfigureAwait(false);
        await ExecuteAsync(connection, $"SELECT pg_advisory_unlock({_setupLock})", cancel).ConfigureAwait(false);
    }

    public static async Task CreateDatabaseAsync(string maintenanceConnection, string name, CancellationToken cancel = default)
    {
        await using var connection = new NpgsqlConnection(maintenanceConnection);
        await connection.OpenAsync(cancel).ConfigureAwait(false);
        if (!await ExistsAsync(connection, "SELECT 1 FROM pg_database WHERE datname = $1", name, cancel).ConfigureAwait(false))
        {
            await ExecuteAsync(connection, $"CREATE DATABASE {Identifier(name)} ENCODING 'UTF8' TEMPLATE template0", cancel).ConfigureAwait(false);
        }
    }

    /// <summary>The extension and Hangfire's schema, in the database that <paramref name="ownerConnection"/> names.</summary>
    public static async Task PrepareAsync(string ownerConnection, CancellationToken cancel = default)
    {
        await using var connection = new NpgsqlConnection(ownerConnection);
        await connection.OpenAsync(cancel).ConfigureAwait(false);
        try
        {
            await ExecuteAsync(connection, "SET client_min_messages = warning; CREATE EXTENSION IF NOT EXISTS btree_gist", cancel).ConfigureAwait(false);
        }
        catch (PostgresException e) when (e.SqlState is PostgresErrorCodes.FeatureNotSupported or PostgresErrorCodes.UndefinedFile)
        {
            throw PostgreSqlMissing.NoExtension("btree_gist", e);
        }

        await ExecuteAsync(connection, $"CREATE SCHEMA IF NOT EXISTS hangfire AUTHORIZATION {AppRole}", cancel).ConfigureAwait(false);
    }

    private static async Task<bool> ExistsAsync(NpgsqlConnection connection, string sql, string value, CancellationToken cancel)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.Add(new NpgsqlParameter { Value = value });
        return await command.ExecuteScalarAsync(cancel).ConfigureAwait(false) is not null;
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string sql, CancellationToken cancel)
    {
        await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Statements such as CREATE ROLE take no parameters; names and values are quoted by Identifier and Literal.
        command.CommandText = sql;
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync(cancel).ConfigureAwait(false);
    }

    private static string Identifier(string name) => '"' + name.Replace("\"", "\"\"", StringComparison.Ordinal) + '"';

    private static string Literal(string value) => '\'' + value.Replace("'", "''", StringComparison.Ordinal) + '\'';
}
