using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Nursery.Data.Schema;

/// <summary>Brings a database to this build's schema and gives the app's role its rights.</summary>
public static class SchemaUpdate
{
    /// <param name="ownerConnectionString">A role that may create tables and extensions.</param>
    /// <param name="appConnectionString">The role the app runs as; it gets no right to change the ledger. May be the owner's.</param>
    public static async Task ApplyAsync(
        string ownerConnectionString, string appConnectionString, CancellationToken cancellation = default)
    {
        var options = new DbContextOptionsBuilder<NurseryDbContext>();
        options.UseNurseryDatabase(ownerConnectionString);
        await using var database = new NurseryDbContext(options.Options);
        await database.Database.MigrateAsync(cancellation);

        var owner = new NpgsqlConnectionStringBuilder(ownerConnectionString).Username;
        var app = new NpgsqlConnectionStringBuilder(appConnectionString).Username;
        if (app is not null && app != owner)
        {
            await GrantAsync(database, app, cancellation);
        }
    }

    private static async Task GrantAsync(NurseryDbContext database, string appRole, CancellationToken cancellation)
    {
        var role = new NpgsqlCommandBuilder().QuoteIdentifier(appRole);
        var sql = $"""
            GRANT USAGE ON SCHEMA public TO {role};
            GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA public TO {role};
            GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO {role};
            REVOKE UPDATE, DELETE, TRUNCATE ON ledger FROM {role};
            REVOKE INSERT, UPDATE, DELETE ON migrations_history FROM {role};
            """;
        await database.Database.ExecuteSqlRawAsync(sql, cancellation);
    }
}
