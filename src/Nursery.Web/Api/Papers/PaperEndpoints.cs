using System.Net.Mime;
using Microsoft.OpenApi;
using Nursery.Application.Papers;
using Nursery.Domain.People;
using Nursery.Domain.Sites;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Papers;

internal static class PaperEndpoints
{
    public static void MapPapers(this RouteGroupBuilder api)
    {
        api.MapGet("/papers/bench-tags.pdf", BenchTagsAsync)
            .Needs(Right.Read, "benchTags", "Bench tags as a PDF")
            .Takes("house", JsonSchemaType.String, "the code of a house; all houses when not given")
            .TakesWord<PaperSize>("paper", "the site's paper when not given")
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Application.Pdf)
            .Refuses(422);
        api.MapGet("/papers/sowing-sheet.pdf", SowingSheetAsync)
            .Needs(Right.Read, "sowingSheet", "What is to be sown, day by day, as a PDF; late sowings first when today is among the days")
            .TakesDay("from", "the first day; the Monday of this week when not given")
            .TakesDay("to", "the last day; six days after the first when not given")
            .TakesWord<PaperSize>("paper", "letter or a4; the site's paper when not given, letter when that is a roll")
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Application.Pdf)
            .Refuses(422);
    }

    private static async Task<IResult> BenchTagsAsync(HttpContext http, PrintBenchTags print)
    {
        var query = new QueryFields(http);
        var house = query.Text("house");
        var paper = query.Word<PaperSize>("paper");
        query.Done();
        var pdf = await print.HandleAsync(house, paper, await http.CallerAsync(), http.RequestAborted);
        return Results.File(pdf, MediaTypeNames.Application.Pdf, house is null ? "bench-tags.pdf" : $"bench-tags-{house}.pdf");
    }

    private static async Task<IResult> SowingSheetAsync(HttpContext http, PrintSowingSheet print)
    {
        var query = new QueryFields(http);
        var (from, to) = (query.Day("from"), query.Day("to"));
        var paper = query.Word<PaperSize>("paper");
        query.Done();
        var pdf = await print.HandleAsync(from, to, paper, await http.CallerAsync(), http.RequestAborted);
        return Results.File(pdf, MediaTypeNames.Application.Pdf, "sowing-sheet.pdf");
    }
}
