using Nursery.Application.Rounds;
using Nursery.Domain.People;
using Nursery.Web.Api.Contract;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Rounds;

internal static class RoundsEndpoints
{
    public static void MapRounds(this RouteGroupBuilder api)
    {
        api.MapGet("/tasks", TasksAsync)
            .Needs(Right.Read, "listTasks", "Tasks of a day in walking order: due then or earlier and open, and those done that day")
            .TakesDay("on", "a day of the site; today there when not given")
            .Lists<TaskItem>();
        api.MapPost("/ledger", RecordAsync)
            .Needs(Right.Ledger, "recordEntries", "Reports what happened, each entry in a transaction of its own")
            .Reads<LedgerBody>()
            .Produces<LedgerAnswer>();
    }

    private static async Task<IResult> TasksAsync(HttpContext http, ListTasks list)
    {
        var query = new QueryFields(http);
        var on = query.Day("on");
        var paging = query.Paging();
        return ApiAnswer.Ok(paging.Cut(await list.HandleAsync(on, await http.CallerAsync(), http.RequestAborted)));
    }

    private static async Task<IResult> RecordAsync(HttpContext http, RecordEntries record)
    {
        var entries = LedgerReading.Read(await RequestBody.JsonAsync(http));
        var results = await record.HandleAsync(entries, await http.CallerAsync(), http.RequestAborted);
        return ApiAnswer.Ok(LedgerAnswer.From(results, http));
    }
}
