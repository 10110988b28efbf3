using System.Net.Mime;
using Microsoft.OpenApi;
using Nursery.Application;
using Nursery.Application.Orders;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Orders;

internal static class OrderEndpoints
{
    private const int MostDeliveries = 100;

    public static void MapOrders(this RouteGroupBuilder api)
    {
        api.MapGet("/orders", ListAsync)
            .Needs(Right.Read, "listOrderLines", "Order lines, one item a line")
            .Lists<OrderLineItem>();
        api.MapGet("/orders.csv", ExportAsync)
            .Needs(Right.Read, "exportOrders", "The order lines as the CSV their import reads")
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Text.Csv);
        api.MapPost("/orders/import", ImportAsync)
            .Needs(Right.Plan, "importOrders", "Order lines from a CSV file: all or nothing, and the same file twice adds nothing")
            .Takes("dryRun", JsonSchemaType.Boolean, "true checks everything and stores nothing; false when not given")
            .ReadsCsv()
            .Produces<ImportResult>()
            .OnceByKey();
        api.MapPost("/orders/{id}", ChangeAsync)
            .Needs(Right.Plan, "changeOrderLine", "Splits an order line into deliveries and keeps the varieties taken instead")
            .Reads<ChangeOrderLineBody>()
            .Produces<ChangedOrderLine>()
            .Refuses(404)
            .OnceByKey();
    }

    private static async Task<IResult> ListAsync(HttpContext http, ListOrderLines list) =>
        ApiAnswer.Ok(await list.HandleAsync(new QueryFields(http).Paging(), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> ChangeAsync(HttpContext http, string id, ChangeOrderLine change)
    {
        var body = await RequestBody.JsonAsync(http);
        var version = body.Whole("version");
        var deliveries = body.Has("deliveries") && !body.IsEmptyList("deliveries")
            ? body.Objects("deliveries", MostDeliveries).Select(item => new AskedDelivery(item.Day("readyOn"), item.Whole("plants"))).ToList()
            : [];
        var substitutes = body.OptionalTexts("substitutes");
        body.Done();
        var line = Parsing.Id(id) ?? throw new NotFound("order line", "id", id);
        var request = new ChangeOrderLineRequest(line, version, deliveries, substitutes);
        return ApiAnswer.Ok(new ChangedOrderLine(line, await change.HandleAsync(request, await http.CallerAsync(), http.RequestAborted)));
    }

    private static async Task<IResult> ExportAsync(HttpContext http, ExportOrders export) =>
        ApiAnswer.Csv(await export.HandleAsync(await http.CallerAsync(), http.RequestAborted), "orders");

    private static async Task<IResult> ImportAsync(HttpContext http, ImportOrders import)
    {
        var query = new QueryFields(http);
        var dryRun = query.Flag("dryRun");
        query.Done();
        var file = await RequestBody.CsvAsync(http);
        var result = await import.HandleAsync(file, dryRun, await http.CallerAsync(), http.RequestAborted);
        return result.Errors.Count == 0 ? ApiAnswer.Ok(result) : throw new ImportLinesRefused(result.DryRun, result.Rows, result.Errors);
    }
}
