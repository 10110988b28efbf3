using System.Net.Mime;
using Microsoft.OpenApi;
using Nursery.Application;
using Nursery.Application.HeatAndLight;
using Nursery.Application.HeatZones.Readings;
using Nursery.Domain.HeatZones;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.HeatZones;

internal static class ReadingEndpoints
{
    private static readonly NumberRange Probe = new((double)ZoneReading.LeastC, (double)ZoneReading.MostC, "°C");

    public static void MapHeatZones(this RouteGroupBuilder api)
    {
        api.MapGet("/heat-and-light", ShowAsync)
            .Needs(Right.Read, "showHeatAndLight", "Heat and light of every house: zones with readings and alarms; temperatures in °C")
            .Produces<HeatAndLightView>();
        api.MapPost("/heat-zones/readings", RecordAsync)
            .Needs(Right.Ledger, "recordReadings", "Takes what probes in the mix read: all or nothing, and the same readings twice add nothing")
            .Reads<RecordReadingsBody>()
            .Produces<RecordedReadings>();
        api.MapPost("/heat-zones/readings/import", ImportAsync)
            .Needs(Right.Ledger, "importReadings", "Readings from a CSV file: all or nothing, and the same file twice adds nothing")
            .Takes("dryRun", JsonSchemaType.Boolean, "true checks everything and stores nothing; false when not given")
            .ReadsCsv()
            .Produces<ReadingsImport>();
        api.MapGet("/heat-zones/readings.csv", ExportAsync)
            .Needs(Right.Read, "exportReadings", "Every reading as the CSV its import reads")
            .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Text.Csv);
    }

    private static async Task<IResult> ShowAsync(HttpContext http, ShowHeatAndLight show)
    {
        new QueryFields(http).Done();
        return ApiAnswer.Ok(await show.HandleAsync(await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> RecordAsync(HttpContext http, RecordReadings record)
    {
        var body = await RequestBody.JsonAsync(http);
        var readings = body.Objects("readings", RecordReadings.Most).Select(item => new ReportedReading(
            item.Text("zone"), item.Moment("at"), (decimal)item.Number("temperatureC", Probe))).ToList();
        body.Done();
        return ApiAnswer.Ok(await record.HandleAsync(readings, await http.CallerAsync(), http.RequestAborted));
    }

    private static async Task<IResult> ImportAsync(HttpContext http, ImportReadings import)
    {
        var query = new QueryFields(http);
        var dryRun = query.Flag("dryRun");
        query.Done();
        var file = await RequestBody.CsvAsync(http);
        var result = await import.HandleAsync(file, dryRun, await http.CallerAsync(), http.RequestAborted);
        return result.Errors.Count == 0 ? ApiAnswer.Ok(result) : throw new ImportLinesRefused(result.DryRun, result.Rows, result.Errors);
    }

    private static async Task<IResult> ExportAsync(HttpContext http, ExportReadings export)
    {
        new QueryFields(http).Done();
        return ApiAnswer.CsvStream(await export.HandleAsync(await http.CallerAsync(), http.RequestAborted), "readings");
    }
}
