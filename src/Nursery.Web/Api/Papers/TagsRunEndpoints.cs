using System.Net.Mime;
using Hangfire;
using Nursery.Application.Papers;
using Nursery.Application.Runs;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Papers;

internal static class TagsRunEndpoints
{
    private const string Path = "/api/v1/papers/tray-tags/runs";

    public static void MapTagsRuns(this RouteGroupBuilder api)
    {
        api.MapPost("/papers/tray-tags/runs", StartAsync)
            .Needs(Right.Read, "startTagsRun", "Starts to print tray tags in the background, however many")
            .Reads<TrayTagsRequest>(required: false)
            .StartsRun<TagsRun>(Path);
        api.MapGet("/papers/tray-tags/runs/{id}", ShowAsync)
            .Needs(Right.Read, "showTagsRun", "How many tags are drawn, and until when the PDF is kept")
            .Produces<TagsRun>()
            .Refuses(404);
        api.MapGet("/papers/tray-tags/runs/{id}/tags.pdf", FetchAsync)
            .Needs(Right.Read, "fetchTags", "The tags a run printed as a PDF, kept for a day")
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Application.Pdf)
            .Refuses(404);
        api.MapPost("/papers/tray-tags/runs/{id}/stop", StopAsync)
            .Needs(Right.Read, "stopTagsRun", "Stops a print after its present pages; what is drawn is thrown away")
            .ChangesRun<TagsRun>();
    }

    private static async Task<IResult> StartAsync(HttpContext http, StartTagsRun start, IBackgroundJobClient jobs)
    {
        var body = await RequestBody.JsonAsync(http, emptyIsObject: true);
        var request = new TrayTagsRequest(
            body.OptionalText("code"), body.OptionalText("house"), body.OptionalDay("sowOn"), body.OptionalWord<TagPaper>("paper"));
        body.Done();
        var run = await start.HandleAsync(request, await http.CallerAsync(), http.RequestAborted);
        jobs.Run(run);
        return ApiAnswer.Accepted(run);
    }

    private static async Task<IResult> ShowAsync(HttpContext http, string id, ShowTagsRuns show) =>
        ApiAnswer.Ok(await show.HandleAsync(IdOf(id), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> FetchAsync(HttpContext http, string id, FetchKeptPrint fetch) => Results.File(
        await fetch.HandleAsync(IdOf(id), await http.CallerAsync(), http.RequestAborted), MediaTypeNames.Application.Pdf, "tray-tags.pdf");

    private static async Task<IResult> StopAsync(HttpContext http, string id, ShowTagsRuns show, StopRun stop)
    {
        var actor = await http.CallerAsync();
        await stop.HandleAsync(IdOf(id), RunKind.TrayTags, actor, http.RequestAborted);
        return ApiAnswer.Ok(await show.HandleAsync(IdOf(id), actor, http.RequestAborted));
    }

    private static Guid IdOf(string id) => Parsing.Id(id) ?? throw new NotFound("print of tags", "id", id);
}
