using System.Net.Mime;
using Microsoft.OpenApi;
using Nursery.Application.Germination;
using Nursery.Application.Papers;
using Nursery.Domain.People;
using Nursery.Domain.Sites;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Papers;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Germination;

internal static class GerminationEndpoints
{
    public static void MapGermination(this RouteGroupBuilder api)
    {
        api.MapGet("/germination", GerminationAsync)
            .Needs(Right.Read, "germination", "How seed came up, one item a key with a count; fractions 0–1")
            .TakesChoice()
            .Lists<GerminationItem>();
        api.MapGet("/germination.csv", GerminationCsvAsync)
            .Needs(Right.Read, "germinationCsv", "The same as CSV: its rows, their batches, or every count of them")
            .TakesWord<GerminationLines>("lines", "what a line is; rows when not given")
            .TakesChoice()
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Text.Csv)
            .Refuses(422);
        api.MapGet("/papers/germination.pdf", GerminationPaperAsync)
            .Needs(Right.Read, "germinationPaper", "Germination on one page as a PDF: curves and a table")
            .TakesChoice()
            .Takes("open", JsonSchemaType.String, "the key of the item whose curves are drawn; the first one's when not given")
            .TakesSheet()
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Application.Pdf)
            .Refuses(422);
    }

    /// <summary>Which batches, by what, in which order: the same wherever germination is asked for.</summary>
    private static RouteHandlerBuilder TakesChoice(this RouteHandlerBuilder endpoint) => endpoint
        .TakesWord<GerminationKey>("by", "what to group by; crop when not given")
        .TakesDay("from", "sown from this day on; from the beginning when not given")
        .TakesDay("to", "sown before this day; to the end when not given")
        .Takes("crop", JsonSchemaType.String, "only of this crop, by code")
        .Takes("house", JsonSchemaType.String, "only of trays that first stood in this house, by code")
        .Takes("lot", JsonSchemaType.String, "only of this seed lot, by code")
        .Takes("below", JsonSchemaType.Number, "only items with a smaller fraction, above 0, to 1")
        .TakesWord<GerminationOrder>("order", "what to sort by; name when not given. Items without the figure come last")
        .Takes("descending", JsonSchemaType.Boolean, "true sorts the greatest first");

    private static GerminationRequest GerminationChoice(this QueryFields query) => new(
        query.Word<GerminationKey>("by") ?? GerminationKey.Crop,
        query.Day("from"),
        query.Day("to"),
        query.Text("crop"),
        query.Text("house"),
        query.Text("lot"),
        query.Number("below"),
        query.Word<GerminationOrder>("order") ?? GerminationOrder.Name,
        query.Flag("descending"));

    private static async Task<IResult> GerminationPaperAsync(HttpContext http, PrintGermination print)
    {
        var query = new QueryFields(http);
        var choice = query.GerminationChoice();
        var open = query.Text("open");
        var paper = query.Word<SheetSize>("paper");
        query.Done();
        var pdf = await print.HandleAsync(choice, open, paper, await http.CallerAsync(), http.RequestAborted);
        return Results.File(pdf, MediaTypeNames.Application.Pdf, "germination.pdf");
    }

    private static async Task<IResult> GerminationAsync(HttpContext http, GerminationByKey germination)
    {
        var query = new QueryFields(http);
        var choice = query.GerminationChoice();
        var paging = query.Paging();
        return ApiAnswer.Ok(paging.Cut(await germination.HandleAsync(choice, await http.CallerAsync(), http.RequestAborted)));
    }

    private static async Task<IResult> GerminationCsvAsync(HttpContext http, ExportGermination export)
    {
        var query = new QueryFields(http);
        var lines = query.Word<GerminationLines>("lines") ?? GerminationLines.Rows;
        var choice = query.GerminationChoice();
        query.Done();
        var csv = await export.HandleAsync(lines, choice, await http.CallerAsync(), http.RequestAborted);
        return ApiAnswer.Csv(csv, lines == GerminationLines.Rows ? "germination" : $"germination-{ApiJson.Word(lines)}");
    }
}
