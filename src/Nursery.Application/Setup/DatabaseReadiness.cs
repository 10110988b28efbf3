using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Nursery.Data;

namespace Nursery.Application.Setup;

/// <summary>Ready once the database answers, has this build's schema, and whatever had to be loaded at start is loaded.</summary>
public sealed class DatabaseReadiness(IDbContextFactory<NurseryDbContext> databases, StartupState startup) : IHealthCheck
{
    public async Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        if (!startup.IsReady)
        {
            return HealthCheckResult.Unhealthy("starting: migrating or loading data");
        }

        await using var database = await databases.CreateDbContextAsync(cancellationToken);
        var missing = await database.Database.GetPendingMigrationsAsync(cancellationToken);
        return missing.Any()
            ? HealthCheckResult.Unhealthy($"the database lacks {string.Join(", ", missing)}")
            : HealthCheckResult.Healthy();
    }
}
