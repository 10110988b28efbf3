using Hangfire;
using Nursery.Application.Plans;
using Nursery.Application.Plans.Changes;
using Nursery.Application.Runs;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Plans;

internal static class PlanEndpoints
{
    private const string Path = "/api/v1/plans";

    private const int MostChanges = 50;

    /// <summary>What <c>seasonId</c> may say: a site has one season, its own.</summary>
    private static readonly string[] Seasons = ["own"];

    public static void MapPlans(this RouteGroupBuilder api)
    {
        api.MapPost("/plans", StartAsync)
            .Needs(Right.Plan, "startPlan", "Starts to compute a plan in the background, of a problem or of the site's own season")
            .Reads<PlanRequest>(required: false)
            .StartsRun<PlanRun>(Path);
        api.MapGet("/plans/{id}", ShowAsync)
            .Needs(Right.Read, "showPlan", "How far a plan is, what the best one costs, and what came of it")
            .Produces<PlanRun>()
            .Refuses(404);
        api.MapPost("/plans/{id}/stop", StopAsync)
            .Needs(Right.Plan, "stopPlan", "Stops computing; the best plan so far is kept")
            .ChangesRun<PlanRun>();
        api.MapPost("/plans/{id}/accept", AcceptAsync)
            .Needs(Right.Plan, "acceptPlan", "Makes a proposal the plan in force, all of it or some batches")
            .ChangesRun<AcceptedPlan>();
        api.MapPost("/plans/{id}/drop", DropAsync)
            .Needs(Right.Plan, "dropPlan", "Puts a proposal away")
            .ChangesRun<PlanRun>();
    }

    private static async Task<IResult> StartAsync(HttpContext http, StartPlan start, IBackgroundJobClient jobs)
    {
        var body = await RequestBody.JsonAsync(http, emptyIsObject: true);
        if (body.Has("seasonId"))
        {
            body.Word("seasonId", Seasons);
        }

        var seconds = new NumberRange(0, 3600, "s") { AboveLow = true };
        var request = new PlanRequest(
            body.OptionalNumber("seconds", seconds), body.OptionalWhole("iterations"), body.OptionalWhole("seed") ?? 1, body.OptionalRaw("problem"),
            body.OptionalWord<PlanAim>("aim") ?? PlanAim.Whole)
        {
            Changes = [.. body.OptionalObjects("changes", MostChanges).Select(PlanChangeBody.Of).OfType<PlanEvent>()],
        };
        body.Done();
        var run = await start.HandleAsync(request, await http.CallerAsync(), http.RequestAborted);
        jobs.Run(run);
        return ApiAnswer.Accepted(run);
    }

    private static async Task<IResult> ShowAsync(HttpContext http, string id, ShowPlan show) =>
        ApiAnswer.Ok(await show.HandleAsync(IdOf(id), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> StopAsync(HttpContext http, string id, ShowPlan show, StopRun stop)
    {
        var actor = await http.CallerAsync();
        await stop.HandleAsync(IdOf(id), RunKind.Plan, actor, http.RequestAborted);
        return ApiAnswer.Ok(await show.HandleAsync(IdOf(id), actor.Hearing(), http.RequestAborted));
    }

    private static async Task<IResult> AcceptAsync(HttpContext http, string id, AcceptPlan accept)
    {
        var body = await RequestBody.JsonAsync(http, emptyIsObject: true);
        IReadOnlyList<string>? batches = body.Has("batches") ? body.OptionalTexts("batches") : null;
        body.Done();
        return ApiAnswer.Ok(await accept.HandleAsync(new AcceptPlanRequest(IdOf(id), batches), await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> DropAsync(HttpContext http, string id, ShowPlan show, DropPlan drop)
    {
        var actor = await http.CallerAsync();
        await drop.HandleAsync(IdOf(id), actor, http.RequestAborted);
        return ApiAnswer.Ok(await show.HandleAsync(IdOf(id), actor.Hearing(), http.RequestAborted));
    }

    private static Guid IdOf(string id) => Parsing.Id(id) ?? throw new NotFound("plan", "id", id);
}
