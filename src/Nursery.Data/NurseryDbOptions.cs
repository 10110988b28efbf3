using Microsoft.EntityFrameworkCore;

namespace Nursery.Data;

/// <summary>How the context talks to PostgreSQL; the same for the app, for tests and for making migrations.</summary>
public static class NurseryDbOptions
{
    public static DbContextOptionsBuilder UseNurseryDatabase(this DbContextOptionsBuilder options, string connectionString) =>
        options
            .UseNpgsql(connectionString, npgsql => npgsql
                .UseNodaTime()
                .SetPostgresVersion(15, 0)
                .MigrationsHistoryTable("migrations_history"))
            .UseSnakeCaseNamingConvention();
}
