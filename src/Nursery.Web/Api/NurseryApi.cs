namespace Nursery.Web.Api;

/// <summary>API v1, the contract for other systems (docs/api.md).</summary>
internal static class NurseryApi
{
    public static void AddNurseryApi(this IServiceCollection services) => services.AddProblemDetails();

    public static bool IsApi(this HttpContext context) =>
        context.Request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase);

    public static void UseApiErrors(this WebApplication app) => _ = app;

    public static void MapNurseryApi(this WebApplication app) => _ = app;
}
