using Microsoft.OpenApi;
using Nursery.Application.Orders;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Orders;

internal static class OrderEndpoints
{
    public static void MapOrders(this RouteGroupBuilder api)
    {
        api.MapGet("/orders", ListAsync)
            .Needs(Right.Read, "listOrderLines", "Order lines, one item a line")
            .Lists<OrderLineItem>();
        api.MapPost("/orders/import", ImportAsync)
            .Needs(Right.Plan, "importOrders", "Order lines from a CSV file: all or nothing, and the same file twice adds nothing")
            .Takes("dryRun", JsonSchemaType.Boolean, "true checks everything and stores nothing; false when not given")
            .ReadsCsv()
            .Produces<ImportResult>()
            .OnceByKey();
    }

    private static async Task<IResult> ListAsync(HttpContext http, ListOrderLines list) =>
        ApiAnswer.Ok(await list.HandleAsync(new QueryFields(http).Paging(), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> ImportAsync(HttpContext http, ImportOrders import)
    {
        var query = new QueryFields(http);
        var dryRun = query.Flag("dryRun");
        query.Done();
        var file = await RequestBody.CsvAsync(http);
        var result = await import.HandleAsync(file, dryRun, await http.CallerAsync(), http.RequestAborted);
        return result.Errors.Count == 0 ? ApiAnswer.Ok(result) : throw new ImportLinesRefused(result);
    }
}
