using Nursery.Application.Germination;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Germination;

internal static class GerminationEndpoints
{
    public static void MapGermination(this RouteGroupBuilder api) =>
        api.MapGet("/germination", GerminationAsync)
            .Needs(Right.Read, "germination", "How seed came up, one item a key with a count; fractions 0–1")
            .TakesWord<GerminationKey>("by", "what to group by; crop when not given")
            .TakesDay("from", "sown from this day on; from the beginning when not given")
            .TakesDay("to", "sown before this day; to the end when not given")
            .Lists<GerminationItem>();

    private static async Task<IResult> GerminationAsync(HttpContext http, GerminationByKey germination)
    {
        var query = new QueryFields(http);
        var by = query.Word<GerminationKey>("by") ?? GerminationKey.Crop;
        var (from, to) = (query.Day("from"), query.Day("to"));
        var paging = query.Paging();
        return ApiAnswer.Ok(paging.Cut(await germination.HandleAsync(by, from, to, await http.CallerAsync(), http.RequestAborted)));
    }
}
