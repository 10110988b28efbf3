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
            .TakesHouse()
            .TakesWord<PaperSize>("paper", "the site's paper when not given")
            .IsPaper();
        api.MapGet("/papers/sowing-sheet.pdf", SowingSheetAsync)
            .Needs(Right.Read, "sowingSheet", "What is to be sown, day by day, as a PDF; late sowings first when today is among the days")
            .TakesDay("from", "the first day; the Monday of this week when not given")
            .TakesDay("to", "the last day; six days after the first when not given")
            .TakesSheet()
            .IsPaper();
        api.MapGet("/papers/mix-sheet.pdf", MixSheetAsync)
            .Needs(Right.Read, "mixSheet", "Growing mix to prepare for what is to be sown, day by day, with amendments, as a PDF")
            .TakesDay("from", "the first day; the Monday of this week when not given")
            .TakesDay("to", "the last day; six days after the first when not given")
            .TakesSheet()
            .IsPaper();
        api.MapGet("/papers/tray-tags.pdf", TrayTagsAsync)
            .Needs(Right.Read, "trayTags", "A tag for every tray as a PDF, up to 300; a run prints more")
            .Takes("code", JsonSchemaType.String, "the code of a batch or of a tray set")
            .TakesHouse()
            .TakesDay("sown", "only what is sown, or to be sown, on that day")
            .TakesWord<TagPaper>("paper", "sheets to cut, labels of 2 × 4 in or stakes of 1 × 4 in; by the site's paper when not given")
            .IsPaper()
            .Refuses(409);
        api.MapGet("/papers/round-sheet.pdf", RoundSheetAsync)
            .Needs(Right.Read, "roundSheet", "The open tasks of a day in walking order as a PDF, with a number to enter the filled sheet by")
            .TakesHouse()
            .TakesDay("on", "today when not given")
            .TakesSheet()
            .IsPaper();
        api.MapGet("/papers/bench-plan.pdf", BenchPlanAsync)
            .Needs(Right.Read, "benchPlan", "Houses seen from above as a PDF, each on one page")
            .TakesHouse()
            .TakesDay("on", "today when not given")
            .TakesSheet()
            .IsPaper();
        api.MapGet("/papers/plan-time-line.pdf", PlanTimeLineAsync)
            .Needs(Right.Read, "planTimeLine", "A plan over its season, by heat zone and by bench, as a PDF")
            .TakesWord<PlanToPrint>("plan", "the plan in force when not given; proposal is the open one")
            .TakesSheet()
            .IsPaper();
        api.MapGet("/papers/carry-list.pdf", CarryListAsync)
            .Needs(Right.Read, "carryList", "Planned moves of some days as a PDF")
            .TakesDay("from", "today when not given")
            .Takes("days", JsonSchemaType.Integer, "1–60; 7 when not given")
            .TakesSheet()
            .IsPaper();
        api.MapGet("/papers/pick-list.pdf", PickListAsync)
            .Needs(Right.Read, "pickList", "What to pick for an order or a day as a PDF")
            .Takes("order", JsonSchemaType.String, "the number of an order; without it, and without a day, all of today")
            .TakesDay("on", "only what is wanted that day")
            .TakesSheet()
            .IsPaper();
        api.MapGet("/papers/patch-sheet.pdf", PatchSheetAsync)
            .Needs(Right.Read, "patchSheet", "Which seedlings to move so that trays are full and others go, as a PDF")
            .Takes("code", JsonSchemaType.String, "the code of a batch; every batch with something to patch or merge when not given")
            .TakesSheet()
            .IsPaper();
    }

    private static async Task<IResult> BenchTagsAsync(HttpContext http, PrintBenchTags print)
    {
        var query = new QueryFields(http);
        var house = query.Text("house");
        var paper = query.Word<PaperSize>("paper");
        query.Done();
        return File(await print.HandleAsync(house, paper, await http.CallerAsync(), http.RequestAborted), "bench-tags", house);
    }

    private static async Task<IResult> SowingSheetAsync(HttpContext http, PrintSowingSheet print)
    {
        var query = new QueryFields(http);
        var (from, to) = (query.Day("from"), query.Day("to"));
        var paper = query.Word<SheetSize>("paper");
        query.Done();
        return File(await print.HandleAsync(from, to, paper, await http.CallerAsync(), http.RequestAborted), "sowing-sheet", null);
    }

    private static async Task<IResult> MixSheetAsync(HttpContext http, PrintMixSheet print)
    {
        var query = new QueryFields(http);
        var (from, to) = (query.Day("from"), query.Day("to"));
        var paper = query.Word<SheetSize>("paper");
        query.Done();
        return File(await print.HandleAsync(from, to, paper, await http.CallerAsync(), http.RequestAborted), "mix-sheet", null);
    }

    private static async Task<IResult> TrayTagsAsync(HttpContext http, PrintTrayTags print)
    {
        var query = new QueryFields(http);
        var request = new TrayTagsRequest(query.Text("code"), query.Text("house"), query.Day("sown"), query.Word<TagPaper>("paper"));
        query.Done();
        var pdf = await print.HandleAsync(request, await http.CallerAsync(), http.RequestAborted);
        return File(pdf, "tray-tags", request.Code ?? request.House);
    }

    private static async Task<IResult> RoundSheetAsync(HttpContext http, PrintRoundSheet print)
    {
        var query = new QueryFields(http);
        var (house, on, sheet) = (query.Text("house"), query.Day("on"), query.Word<SheetSize>("paper"));
        query.Done();
        return File(await print.HandleAsync(house, on, sheet, await http.CallerAsync(), http.RequestAborted), "round-sheet", house);
    }

    private static async Task<IResult> BenchPlanAsync(HttpContext http, PrintBenchPlan print)
    {
        var query = new QueryFields(http);
        var (house, on, sheet) = (query.Text("house"), query.Day("on"), query.Word<SheetSize>("paper"));
        query.Done();
        return File(await print.HandleAsync(house, on, sheet, await http.CallerAsync(), http.RequestAborted), "bench-plan", house);
    }

    private static async Task<IResult> PlanTimeLineAsync(HttpContext http, PrintPlanTimeLine print)
    {
        var query = new QueryFields(http);
        var (plan, sheet) = (query.Word<PlanToPrint>("plan"), query.Word<SheetSize>("paper"));
        query.Done();
        return File(await print.HandleAsync(plan, sheet, await http.CallerAsync(), http.RequestAborted), "plan-time-line", null);
    }

    private static async Task<IResult> CarryListAsync(HttpContext http, PrintCarryList print)
    {
        var query = new QueryFields(http);
        var (from, days, sheet) = (query.Day("from"), query.Whole("days"), query.Word<SheetSize>("paper"));
        query.Done();
        return File(await print.HandleAsync(from, days, sheet, await http.CallerAsync(), http.RequestAborted), "carry-list", null);
    }

    private static async Task<IResult> PickListAsync(HttpContext http, PrintPickList print)
    {
        var query = new QueryFields(http);
        var (order, on, sheet) = (query.Text("order"), query.Day("on"), query.Word<SheetSize>("paper"));
        query.Done();
        return File(await print.HandleAsync(order, on, sheet, await http.CallerAsync(), http.RequestAborted), "pick-list", order);
    }

    private static async Task<IResult> PatchSheetAsync(HttpContext http, PrintPatchSheet print)
    {
        var query = new QueryFields(http);
        var (code, sheet) = (query.Text("code"), query.Word<SheetSize>("paper"));
        query.Done();
        return File(await print.HandleAsync(code, sheet, await http.CallerAsync(), http.RequestAborted), "patch-sheet", code);
    }

    private static RouteHandlerBuilder TakesHouse(this RouteHandlerBuilder endpoint) =>
        endpoint.Takes("house", JsonSchemaType.String, "the code of a house; all houses when not given");

    internal static RouteHandlerBuilder TakesSheet(this RouteHandlerBuilder endpoint) =>
        endpoint.TakesWord<SheetSize>("paper", "the site's paper when not given; when that is a roll, letter or a4 by its units");

    private static RouteHandlerBuilder IsPaper(this RouteHandlerBuilder endpoint) =>
        endpoint.Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Application.Pdf).Refuses(422);

    private static IResult File(byte[] pdf, string paper, string? about) =>
        Results.File(pdf, MediaTypeNames.Application.Pdf, about is null ? $"{paper}.pdf" : $"{paper}-{about}.pdf");
}
