using System.Net.Mime;
using Nursery.Application.Exports;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Exports;

/// <summary>Lists as CSV files. The lists of the setup have their own, which their import reads.</summary>
internal static class ExportEndpoints
{
    public static void MapExports(this RouteGroupBuilder api)
    {
        Map(api, "reservations", "Reservations: the plan", async (ExportReservations export, HttpContext http) =>
            ApiAnswer.Csv(await export.HandleAsync(await AskedAsync(http), http.RequestAborted), "reservations"));
        Map(api, "standings", "Which trays stand where", async (ExportStandings export, HttpContext http) =>
            ApiAnswer.Csv(await export.HandleAsync(await AskedAsync(http), http.RequestAborted), "standings"));
        Map(api, "tasks", "Tasks: open, done and withdrawn", async (ExportTasks export, HttpContext http) =>
            ApiAnswer.Csv(await export.HandleAsync(await AskedAsync(http), http.RequestAborted), "tasks"));
        Map(api, "setpoints", "Spans of days with another setpoint", async (ExportSetpoints export, HttpContext http) =>
            ApiAnswer.Csv(await export.HandleAsync(await AskedAsync(http), http.RequestAborted), "setpoints"));
        Map(api, "ledger", "The whole ledger, in the order it was recorded", async (ExportLedger export, HttpContext http) =>
            ApiAnswer.CsvStream(await export.HandleAsync(await AskedAsync(http), http.RequestAborted), "ledger"));
    }

    private static void Map(RouteGroupBuilder api, string list, string what, Delegate answer) => api.MapGet($"/{list}.csv", answer)
        .Needs(Right.Read, $"{list}Csv", $"{what}, as CSV")
        .Produces(StatusCodes.Status200OK, contentType: MediaTypeNames.Text.Csv);

    private static Task<Actor> AskedAsync(HttpContext http)
    {
        new QueryFields(http).Done();
        return http.CallerAsync();
    }
}
