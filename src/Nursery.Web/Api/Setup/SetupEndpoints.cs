using System.Net.Mime;
using Microsoft.OpenApi;
using Nursery.Application.Setup.Lists;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Setup;

internal static class SetupEndpoints
{
    public static void MapSetup(this RouteGroupBuilder api)
    {
        foreach (var list in Lists)
        {
            Map(api, list);
        }
    }

    private static readonly (string Name, Right Right)[] Lists =
    [
        ("site", Right.Plan), ("houses", Right.Plan), ("benches", Right.Plan), ("heat-zones", Right.Plan), ("tray-types", Right.Plan),
        ("crops", Right.Plan),
        ("varieties", Right.Plan), ("seed-lots", Right.Plan), ("people", Right.Admin),
    ];

    private static void Map(RouteGroupBuilder api, (string Name, Right Right) list)
    {
        var name = string.Concat(list.Name.Split('-').Select(word => char.ToUpperInvariant(word[0]) + word[1..]));
        api.MapGet($"/setup/{list.Name}.csv", (HttpContext http, ExportSetupList export) => ExportAsync(http, export, list.Name))
            .Needs(list.Right, $"export{name}", $"The list of {list.Name} as the CSV its import reads")
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Text.Csv);
        api.MapPost($"/setup/{list.Name}/import", (HttpContext http, ImportSetupList import) => ImportAsync(http, import, list.Name))
            .Needs(list.Right, $"import{name}", $"Rows of {list.Name} from a CSV file: all or nothing, and the same file twice changes nothing")
            .Takes("dryRun", JsonSchemaType.Boolean, "true checks everything and stores nothing; false when not given")
            .ReadsCsv()
            .Produces<SetupImport>()
            .OnceByKey();
    }

    private static async Task<IResult> ExportAsync(HttpContext http, ExportSetupList export, string list)
    {
        var csv = await export.HandleAsync(list, await http.CallerAsync(), http.RequestAborted);
        return ApiAnswer.Csv(csv, list.Replace('-', '_'));
    }

    private static async Task<IResult> ImportAsync(HttpContext http, ImportSetupList import, string list)
    {
        var query = new QueryFields(http);
        var dryRun = query.Flag("dryRun");
        query.Done();
        var file = await RequestBody.CsvAsync(http);
        var result = await import.HandleAsync(list, file, dryRun, await http.CallerAsync(), http.RequestAborted);
        return result.Errors.Count == 0 ? ApiAnswer.Ok(result) : throw new SetupLinesRefused(result);
    }
}
