using Microsoft.OpenApi;
using Nursery.Application.Batches;
using Nursery.Application.Sowings;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Sowings;

/// <summary>What is to be sown, how much could be, and changing it.</summary>
internal static class SowingEndpoints
{
    public static void MapSowings(this RouteGroupBuilder api)
    {
        api.MapGet("/sowings", ListAsync)
            .Needs(Right.Read, "listSowings", "What is to be sown, day by day, with seed, mix, chances and what one tray more is worth; late sowings when today is among the days")
            .TakesDay("from", "the first day; the Monday of this week when not given")
            .TakesDay("to", "the last day; six days after the first when not given")
            .Produces<SowingList>()
            .Refuses(422);
        api.MapGet("/batches/{code}/sowing-options", OptionsAsync)
            .Needs(Right.Read, "showSowingOptions", "All ways to sow a batch, named by its code or id, for what its orders want, side by side")
            .Produces<SowingChoices>()
            .Refuses(404);
        api.MapPost("/batches/{id}/replan", ReplanAsync)
            .Needs(Right.Plan, "replanBatch", "Another tray count, number of seeds a cell, sowing day or lot for a batch that is not sown; what is left out stays")
            .Takes("dryRun", JsonSchemaType.Boolean, "true says what would follow and stores nothing; false when not given")
            .Reads<ReplanBody>()
            .Produces<BatchChange>()
            .Refuses(404)
            .OnceByKey();
    }

    private static async Task<IResult> ListAsync(HttpContext http, ListSowings list)
    {
        var query = new QueryFields(http);
        var (from, to) = (query.Day("from"), query.Day("to"));
        query.Done();
        return ApiAnswer.Ok(await list.HandleAsync(from, to, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> OptionsAsync(HttpContext http, string code, ShowSowingOptions show) =>
        ApiAnswer.Ok(await show.HandleAsync(code, await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> ReplanAsync(HttpContext http, string id, ChangeBatch change)
    {
        var query = new QueryFields(http);
        var dryRun = query.Flag("dryRun");
        query.Done();
        var body = await RequestBody.JsonAsync(http);
        var version = body.Whole("version");
        var (trays, seeds) = (body.OptionalWhole("trays"), body.OptionalWhole("seedsPerCell"));
        var (sowOn, lot) = (body.OptionalDay("sowOn"), body.OptionalText("lotCode"));
        body.Done();
        var batch = Parsing.Id(id) ?? throw new NotFound("batch", "id", id);
        var request = new ChangeBatchRequest(batch, version, trays, sowOn, lot, seeds);
        var actor = await http.CallerAsync();
        return ApiAnswer.Ok(dryRun
            ? await change.TryAsync(request, actor, http.RequestAborted)
            : await change.HandleAsync(request, actor, http.RequestAborted));
    }
}
