using Microsoft.OpenApi;
using Nursery.Agronomy.Standards;
using Nursery.Application;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Agronomy;

internal static class StandardEndpoints
{
    private const string Kinds = "a kind of /api/v1/agronomy/standards/kinds";

    public static void MapStandards(this RouteGroupBuilder api)
    {
        api.MapGet("/standards/kinds", (Delegate)KindsAsync)
            .Needs(Right.Read, "listStandardKinds", "Kinds with a published lowest germination")
            .Produces<Page<KindAnswer>>();
        api.MapGet("/standards/germination-minimum", (Delegate)MinimumAsync)
            .Needs(Right.Read, "germinationMinimum", "Lowest germination of a kind in interstate commerce of the United States")
            .Takes("kind", JsonSchemaType.String, Kinds)
            .Produces<GerminationMinimumAnswer>()
            .Refuses(422);
        api.MapPost("/standards/replicate-range", (Delegate)RangeAsync)
            .Needs(Right.Read, "checkReplicateRange", "Whether two or four replicates of 100 seeds agree")
            .Reads<ReplicateRangeRequest>()
            .Produces<ReplicateRangeAnswer>();
    }

    private static async Task<IResult> KindsAsync(HttpContext http)
    {
        await http.CallerAsync();
        return ApiAnswer.Ok(new Page<KindAnswer>([.. GerminationMinimum.All.Select(row => new KindAnswer(row.Kind, Percent(row)))], null));
    }

    private static async Task<IResult> MinimumAsync(HttpContext http)
    {
        await http.CallerAsync();
        var query = new QueryFields(http);
        var kind = query.NeededText("kind", Kinds);
        query.Done();
        var found = GerminationMinimum.Find(kind) ?? throw new InvalidFields("kind", kind, Kinds);
        return ApiAnswer.Ok(new GerminationMinimumAnswer(found.Kind, Percent(found), GerminationMinimum.Source, AgronomyHow.GerminationMinimum(query.Inputs, GerminationMinimum.Source)));
    }

    private static async Task<IResult> RangeAsync(HttpContext http)
    {
        await http.CallerAsync();
        var body = await RequestBody.JsonAsync(http);
        var percents = body.Numbers("percents", 4, Ranges.Percent);
        if (percents.Count is not (0 or 2 or 4))
        {
            body.Refuse("percents", "2 or 4 replicates of 100 seeds, 0 to 100 % each");
        }

        body.Done();
        var range = ReplicateRange.Of(percents);
        return ApiAnswer.Ok(new ReplicateRangeAnswer(range.Range, range.Allowed, range.IsWithin, range.Source, AgronomyHow.ReplicateRange(body.Inputs, range.Source)));
    }

    private static double Percent(GerminationMinimum standard) => Math.Round(standard.Minimum.Percent, 6);
}
