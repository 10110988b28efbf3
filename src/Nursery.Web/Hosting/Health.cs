using Microsoft.AspNetCore.Diagnostics.HealthChecks;

namespace Nursery.Web.Hosting;

internal static class Health
{
    /// <summary>live: the process answers. ready: migrated and loaded.</summary>
    public static void MapHealth(this WebApplication app)
    {
        app.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false }).AllowAnonymous();
        app.MapHealthChecks("/health/ready", new HealthCheckOptions { Predicate = check => check.Tags.Contains("ready") }).AllowAnonymous();
    }
}
