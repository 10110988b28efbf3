using Nursery.Application.Benches;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Benches;

internal static class BenchEndpoints
{
    public static void MapBenches(this RouteGroupBuilder api)
    {
        api.MapGet("/benches", BenchesAsync)
            .Needs(Right.Read, "listBenches", "Benches in walking order")
            .Lists<BenchItem>();
        api.MapGet("/heat-zones", HeatZonesAsync)
            .Needs(Right.Read, "listHeatZones", "Heat zones in walking order, temperatures in °C")
            .Lists<HeatZoneItem>();
    }

    private static async Task<IResult> BenchesAsync(HttpContext http, ListBenches list) =>
        ApiAnswer.Ok(await list.HandleAsync(new QueryFields(http).Paging(), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> HeatZonesAsync(HttpContext http, ListHeatZones list) =>
        ApiAnswer.Ok(await list.HandleAsync(new QueryFields(http).Paging(), await http.CallerAsync(), http.RequestAborted));
}
