using Nursery.Web.Api.Agronomy;
using Nursery.Web.Api.Batches;
using Nursery.Web.Api.Benches;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Exports;
using Nursery.Web.Api.Forecasts;
using Nursery.Web.Api.Germination;
using Nursery.Web.Api.HeatZones;
using Nursery.Web.Api.Orders;
using Nursery.Web.Api.Papers;
using Nursery.Web.Api.Plans;
using Nursery.Web.Api.Problems;
using Nursery.Web.Api.Requests;
using Nursery.Web.Api.Reservations;
using Nursery.Web.Api.Rounds;
using Nursery.Web.Api.Setup;
using Nursery.Web.Api.Sowings;

namespace Nursery.Web.Api;

/// <summary>API v1, the contract for other systems (docs/api.md).</summary>
internal static class NurseryApi
{
    private static readonly string[] Roots = ["/api", "/openapi"];

    public static void AddNurseryApi(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(options => ApiJson.Applied(options.SerializerOptions));
        services.AddContractDocument();
    }

    /// <summary>Asked by programs: answers are data, never pages or redirects.</summary>
    public static bool IsApi(this HttpContext context) =>
        Roots.Any(root => context.Request.Path.StartsWithSegments(root, StringComparison.OrdinalIgnoreCase));

    public static void UseApiErrors(this WebApplication app) => app.UseMiddleware<ApiErrors>();

    public static void MapNurseryApi(this WebApplication app)
    {
        var api = app.MapGroup("/api/v1").AddEndpointFilter<SameSiteFilter>();
        api.MapGroup("").WithTags("Orders").MapOrders();
        api.MapGroup("").WithTags("Batches").MapBatches();
        api.MapGroup("").WithTags("Forecasts").MapForecasts();
        api.MapGroup("").WithTags("Sowings").MapSowings();
        api.MapGroup("").WithTags("Benches").MapBenches();
        api.MapGroup("").WithTags("Heat and light").MapHeatZones();
        api.MapGroup("").WithTags("Reservations").MapReservations();
        api.MapGroup("").WithTags("Placements").MapPlacements();
        api.MapGroup("").WithTags("Plans").MapPlans();
        api.MapGroup("").WithTags("Benches").MapOutages();
        api.MapGroup("").WithTags("Rounds").MapRounds();
        api.MapGroup("").WithTags("Germination").MapGermination();
        api.MapGroup("").WithTags("Agronomy").MapAgronomy();
        api.MapGroup("").WithTags("Papers").MapPapers();
        api.MapGroup("").WithTags("Papers").MapTagsRuns();
        api.MapGroup("").WithTags("Exports").MapExports();
        api.MapGroup("").WithTags("Setup").MapSetup();
        app.MapContractDocument();
    }
}
