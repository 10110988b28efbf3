using System.Net.Mime;
using Microsoft.OpenApi;
using Nursery.Application.Batches;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Batches;

internal static class BatchEndpoints
{
    private const int MostAllocations = 1000;
    private const int MostParts = 24;

    public static void MapBatches(this RouteGroupBuilder api)
    {
        api.MapGet("/batches", ListAsync)
            .Needs(Right.Read, "listBatches", "Batches")
            .Lists<BatchItem>();
        api.MapGet("/batches.csv", ExportAsync)
            .Needs(Right.Read, "exportBatches", "The batches as CSV")
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Text.Csv);
        api.MapPost("/batches", PlanAsync)
            .Needs(Right.Plan, "planBatch", "Plans a batch with a tray set of its own")
            .Reads<PlanBatchRequest>()
            .Produces<PlannedBatch>(StatusCodes.Status201Created)
            .WithMetadata(new CreatedUnder("/api/v1/batches"))
            .OnceByKey();
        api.MapPost("/batches/from-orders", FromOrdersAsync)
            .Needs(Right.Plan, "planFromOrders", "Makes a batch for each order line or delivery with open plants, or for those named")
            .Reads<PlanFromOrdersRequest>(required: false)
            .Produces<PlanFromOrdersResult>()
            .OnceByKey();
        api.MapGet("/batches/tray-partners", PartnersAsync)
            .Needs(Right.Read, "listTrayPartners", "Planned batches that could share trays with those named, the best first, and why the others do not suit")
            .Takes("batchIds", JsonSchemaType.String, "ids of the chosen batches, with commas between; none lists every planned batch that shares with none")
            .Produces<IReadOnlyList<PartnerAnswer>>()
            .Refuses(404);
        api.MapPost("/batches/share-trays", ShareAsync)
            .Needs(Right.Plan, "shareTrays", "Puts several small planned batches into one tray set, each in rows of cells of its own")
            .Takes("dryRun", JsonSchemaType.Boolean, "true says what would be and stores nothing; false when not given")
            .Reads<ShareTraysRequest>()
            .Produces<SharedTrays>()
            .Refuses(404)
            .OnceByKey();
        api.MapPost("/batches/{id}/unshare-trays", UnshareAsync)
            .Needs(Right.Plan, "unshareTrays", "Takes a batch out of the trays it shares, as long as nothing is sown in them")
            .Reads<UnshareTraysBody>()
            .Produces<UnsharedTrays>()
            .Refuses(404)
            .OnceByKey();
        api.MapGet("/batches/{id}", ShowAsync)
            .Needs(Right.Read, "showBatch", "One batch with its plan, where it stands, whom it is for and its story")
            .Produces<BatchAnswer>()
            .Refuses(404);
        api.MapPost("/batches/{id}/discard-trays", DiscardTraysAsync)
            .Needs(Right.Plan, "discardTrays", "Throws some trays of a sown batch away; their spaces are free from today")
            .Reads<DiscardTraysBody>()
            .Produces<BatchAnswer>()
            .Refuses(404)
            .OnceByKey();
        api.MapPost("/batches/{id}/sow", SowAsync)
            .Needs(Right.Ledger, "sowBatch", "Reports that a batch was sown, on a day and from a lot")
            .Reads<SowBatchRequest>()
            .Produces<BatchAnswer>()
            .Refuses(404)
            .OnceByKey();
    }

    private static async Task<IResult> ListAsync(HttpContext http, ListBatches list) =>
        ApiAnswer.Ok(await list.HandleAsync(new QueryFields(http).Paging(), await http.CallerAsync(), http.RequestAborted));

    private static async Task<IResult> ExportAsync(HttpContext http, ExportBatches export) =>
        ApiAnswer.Csv(await export.HandleAsync(await http.CallerAsync(), http.RequestAborted), "batches");

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
            AllocationsOf(body),
            body.OptionalText("trayTypeCode"));
        body.Done();
        return ApiAnswer.Created(await plan.HandleAsync(request, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> FromOrdersAsync(HttpContext http, PlanFromOrders plan)
    {
        var body = await RequestBody.JsonAsync(http, emptyIsObject: true);
        var request = new PlanFromOrdersRequest(body.OptionalIds("orderLineIds"), body.OptionalFlag("wholeLines"));
        body.Done();
        return ApiAnswer.Ok(await plan.HandleAsync(request, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> PartnersAsync(HttpContext http, ListTrayPartners list)
    {
        var query = new QueryFields(http);
        var ids = query.Ids("batchIds");
        query.Done();
        var partners = await list.HandleAsync(ids, await http.CallerAsync(), http.RequestAborted);
        return ApiAnswer.Ok(partners.Select(PartnerAnswer.From).ToList());
    }

    private static async Task<IResult> ShareAsync(HttpContext http, ShareTrays share)
    {
        var query = new QueryFields(http);
        var dryRun = query.Flag("dryRun");
        query.Done();
        var body = await RequestBody.JsonAsync(http);
        var request = new ShareTraysRequest([
            .. body.Objects("parts", MostParts).Select(part => new TrayPart(part.Id("batchId"), part.Whole("version"), part.OptionalWhole("rows"))),
        ]);
        body.Done();
        var actor = await http.CallerAsync();
        return ApiAnswer.Ok(dryRun
            ? await share.TryAsync(request, actor, http.RequestAborted)
            : await share.HandleAsync(request, actor, http.RequestAborted));
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

    private static async Task<IResult> UnshareAsync(HttpContext http, string id, UnshareTrays unshare)
    {
        var body = await RequestBody.JsonAsync(http);
        var version = body.Whole("version");
        body.Done();
        return ApiAnswer.Ok(await unshare.HandleAsync(IdOf(id), version, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> DiscardTraysAsync(HttpContext http, string id, DiscardTrays discard, ShowBatch show)
    {
        var body = await RequestBody.JsonAsync(http);
        var (entry, first, trays, cause) = (body.Id("entryId"), body.Whole("firstTray"), body.Whole("trays"), body.Text("cause"));
        body.Done();
        var actor = await http.CallerAsync();
        await discard.HandleAsync(new DiscardTraysRequest(entry, IdOf(id), new SpaceRun(first, trays), cause), actor, http.RequestAborted);
        var reader = actor with { Rights = new HashSet<Right>(actor.Rights) { Right.Read } };
        return ApiAnswer.Ok(BatchAnswer.From(await show.HandleAsync(IdOf(id), reader, http.RequestAborted)));
    }

    private static List<PlannedAllocation>? AllocationsOf(JsonFields body) =>
        body.Has("allocations") && !body.IsEmptyList("allocations")
            ? [.. body.Objects("allocations", MostAllocations).Select(item => new PlannedAllocation(
                item.Id("orderLineId"), item.Whole("plants"), item.Has("deliveryId") ? item.Id("deliveryId") : null))]
            : null;

    private static Guid IdOf(string id) => Parsing.Id(id) ?? throw new NotFound("batch", "id", id);
}
