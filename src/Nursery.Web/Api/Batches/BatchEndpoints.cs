using Nursery.Application.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Batches;

internal static class BatchEndpoints
{
    private const int MostAllocations = 1000;

    public static void MapBatches(this RouteGroupBuilder api)
    {
        api.MapGet("/batches", ListAsync)
            .Needs(Right.Read, "listBatches", "Batches")
            .Lists<BatchItem>();
        api.MapPost("/batches", PlanAsync)
            .Needs(Right.Plan, "planBatch", "Plans a batch with a tray set of its own")
            .Reads<PlanBatchRequest>()
            .Produces<PlannedBatch>(StatusCodes.Status201Created)
            .WithMetadata(new CreatedUnder("/api/v1/batches"))
            .OnceByKey();
        api.MapPost("/batches/from-orders", FromOrdersAsync)
            .Needs(Right.Plan, "planFromOrders", "Makes a batch for each order line with open plants, or for those named")
            .Reads<PlanFromOrdersRequest>(required: false)
            .Produces<PlanFromOrdersResult>()
            .OnceByKey();
        api.MapGet("/batches/{id}", ShowAsync)
            .Needs(Right.Read, "showBatch", "One batch with its plan, where it stands, whom it is for and its story")
            .Produces<BatchAnswer>()
            .Refuses(404);
        api.MapPost("/batches/{id}/sow", SowAsync)
            .Needs(Right.Ledger, "sowBatch", "Reports that a batch was sown, on a day and from a lot")
            .Reads<SowBatchRequest>()
            .Produces<BatchAnswer>()
            .Refuses(404)
            .OnceByKey();
    }

    private static async Task<IResult> ListAsync(HttpContext http, ListBatches list) =>
        ApiAnswer.Ok(await list.HandleAsync(new QueryFields(http).Paging(), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> PlanAsync(HttpContext http, PlanBatch plan)
    {
        var body = await RequestBody.JsonAsync(http);
        var request = new PlanBatchRequest(
            body.Text("varietyCode"),
            body.OptionalText("lotCode"),
            body.Whole("trays"),
            body.Whole("cellsPerTray"),
            body.Whole("seedsPerCell"),
            body.Day("sowOn"),
            AllocationsOf(body));
        body.Done();
        return ApiAnswer.Created(await plan.HandleAsync(request, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> FromOrdersAsync(HttpContext http, PlanFromOrders plan)
    {
        var body = await RequestBody.JsonAsync(http, emptyIsObject: true);
        var request = new PlanFromOrdersRequest(body.OptionalIds("orderLineIds"));
        body.Done();
        return ApiAnswer.Ok(await plan.HandleAsync(request, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> ShowAsync(HttpContext http, string id, ShowBatch show) =>
        ApiAnswer.Ok(BatchAnswer.From(await show.HandleAsync(IdOf(id), await http.CallerAsync(), http.RequestAborted)));

    private static async Task<IResult> SowAsync(HttpContext http, string id, SowBatch sow, ShowBatch show)
    {
        var body = await RequestBody.JsonAsync(http);
        var request = new SowBatchRequest(body.Id("entryId"), body.OptionalText("lotCode"), body.Day("on"));
        body.Done();
        var actor = await http.CallerAsync();
        await sow.HandleAsync(IdOf(id), request, actor, http.RequestAborted);

        // A key that may only write to the ledger still hears what became of what it wrote.
        var reader = actor with { Rights = new HashSet<Right>(actor.Rights) { Right.Read } };
        return ApiAnswer.Ok(BatchAnswer.From(await show.HandleAsync(IdOf(id), reader, http.RequestAborted)));
    }

    private static List<PlannedAllocation>? AllocationsOf(JsonFields body) =>
        body.Has("allocations") && !body.IsEmptyList("allocations")
            ? [.. body.Objects("allocations", MostAllocations).Select(item => new PlannedAllocation(item.Id("orderLineId"), item.Whole("plants")))]
            : null;

    private static Guid IdOf(string id) => Parsing.Id(id) ?? throw new NotFound("batch", "id", id);
}
