using Nursery.Application.Outages;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Benches;

/// <summary>What a request to give something back may say.</summary>
/// <param name="On">First day it can be used again; today when not given.</param>
internal sealed record GiveBackBody(NodaTime.LocalDate? On);

internal static class OutageEndpoints
{
    public static void MapOutages(this RouteGroupBuilder api)
    {
        api.MapGet("/outages", ListAsync)
            .Needs(Right.Read, "listOutages", "Benches and heat zones out of use today or later, with the trays that must go elsewhere")
            .Lists<OutageItem>();
        api.MapPost("/outages", TakeAsync)
            .Needs(Right.Plan, "takeOutOfUse", "Takes a bench or a heat zone out of use for some days; 'to' is the first day it can be used again")
            .Reads<TakeOutOfUseRequest>()
            .Produces<OutageItem>(StatusCodes.Status201Created)
            .OnceByKey();
        api.MapPost("/outages/{id}/give-back", GiveBackAsync)
            .Needs(Right.Plan, "giveBack", "Gives a bench or a heat zone back to use sooner than was said")
            .Reads<GiveBackBody>(required: false)
            .Produces<ShortenedOutage>()
            .Refuses(404)
            .OnceByKey();
    }

    private static async Task<IResult> ListAsync(HttpContext http, ListOutages list) =>
        ApiAnswer.Ok(await list.HandleAsync(new QueryFields(http).Paging(), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> TakeAsync(HttpContext http, TakeOutOfUse take)
    {
        var body = await RequestBody.JsonAsync(http);
        var request = new TakeOutOfUseRequest(
            body.OptionalText("benchCode"), body.OptionalText("zoneCode"), body.Day("from"), body.Day("to"), body.OptionalText("why"));
        body.Done();
        return ApiAnswer.Created(await take.HandleAsync(request, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> GiveBackAsync(HttpContext http, string id, GiveBack give)
    {
        var body = await RequestBody.JsonAsync(http, emptyIsObject: true);
        var on = body.OptionalDay("on");
        body.Done();
        var outage = Parsing.Id(id) ?? throw new NotFound("bench or zone out of use", "id", id);
        return ApiAnswer.Ok(await give.HandleAsync(outage, on, await http.CallerAsync(), http.RequestAborted));
    }
}
