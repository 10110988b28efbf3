using Hangfire;
using Nursery.Application.Reservations;
using Nursery.Application.Runs;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Reservations;

internal static class PlacementEndpoints
{
    private const string Path = "/api/v1/placements";

    public static void MapPlacements(this RouteGroupBuilder api)
    {
        api.MapPost("/placements", StartAsync)
            .Needs(Right.Plan, "startPlacing", "Starts to give every planned batch without a place one, in the background")
            .StartsRun<PlacingRun>(Path);
        api.MapGet("/placements/{id}", ShowAsync)
            .Needs(Right.Read, "showPlacing", "How far a placing is, what was placed where so far, and what not and why")
            .Produces<PlacingRun>()
            .Refuses(404);
        api.MapPost("/placements/{id}/stop", StopAsync)
            .Needs(Right.Plan, "stopPlacing", "Stops a placing after its present step; what is placed stays")
            .ChangesRun<PlacingRun>();
    }

    private static async Task<IResult> StartAsync(HttpContext http, StartPlacing start, IBackgroundJobClient jobs)
    {
        (await RequestBody.JsonAsync(http, emptyIsObject: true)).Done();
        var run = await start.HandleAsync(await http.CallerAsync(), http.RequestAborted);
        jobs.Run(run);
        return ApiAnswer.Accepted(run);
    }

    private static async Task<IResult> ShowAsync(HttpContext http, string id, ShowPlacing show) =>
        ApiAnswer.Ok(await show.HandleAsync(IdOf(id), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> StopAsync(HttpContext http, string id, ShowPlacing show, StopRun stop)
    {
        var actor = await http.CallerAsync();
        await stop.HandleAsync(IdOf(id), RunKind.FirstFit, actor, http.RequestAborted);
        return ApiAnswer.Ok(await show.HandleAsync(IdOf(id), actor.Hearing(), http.RequestAborted));
    }

    private static Guid IdOf(string id) => Parsing.Id(id) ?? throw new NotFound("placing run", "id", id);
}
