using Nursery.Application.Batches;
using Nursery.Application.Forecasts;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Forecasts;

internal static class ForecastEndpoints
{
    public static void MapForecasts(this RouteGroupBuilder api)
    {
        api.MapGet("/batches/{code}/forecast", ForecastAsync)
            .Needs(Right.Read, "forecastBatch", "What is to be expected of a batch, named by its code or id, with its curve and how each number came to be")
            .Produces<BatchForecastAnswer>()
            .Refuses(404);
        api.MapGet("/short-stands", ShortStandsAsync)
            .Needs(Right.Read, "listShortStands", "Batches that will fall short, with all remedies; what waiting costs most first")
            .Produces<IReadOnlyList<ShortStandItem>>();
        api.MapPost("/batches/{id}/resow", ResowAsync)
            .Needs(Right.Plan, "planResow", "Plans a batch that makes up for a short stand and moves the missing plants of its orders there")
            .Reads<PlanResowRequest>()
            .Produces<PlannedBatch>(StatusCodes.Status201Created)
            .WithMetadata(new CreatedUnder("/api/v1/batches"))
            .Refuses(404)
            .OnceByKey();
    }

    private static async Task<IResult> ForecastAsync(HttpContext http, string code, ShowForecast show) =>
        ApiAnswer.Ok(BatchForecastAnswer.From(await show.HandleAsync(code, await http.CallerAsync(), http.RequestAborted)));

    private static async Task<IResult> ShortStandsAsync(HttpContext http, ListShortStands list) =>
        ApiAnswer.Ok(await list.HandleAsync(await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> ResowAsync(HttpContext http, string id, PlanResow plan)
    {
        var body = await RequestBody.JsonAsync(http);
        var request = new PlanResowRequest(
            body.Text("varietyCode"), body.OptionalText("lotCode"), body.Whole("trays"), body.Whole("plants"), body.Has("sowOn") ? body.Day("sowOn") : null);
        body.Done();
        var batch = Parsing.Id(id) ?? throw new NotFound("batch", "id", id);
        return ApiAnswer.Created(await plan.HandleAsync(batch, request, await http.CallerAsync(), http.RequestAborted));
    }
}
