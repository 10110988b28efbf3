using Nursery.Application.Setup.Lists;
using Nursery.Domain.People;

namespace Nursery.Web.Tests.Api;

/// <summary>Every call of API v1 with the right it needs and a request that changes nothing.</summary>
public sealed record Endpoint(string Method, string Path, Right Right, string? Body = null, string ContentType = "application/json")
{
    private const string Id = "0195a3c8-1f2e-7abc-8def-0123456789ab";

    public static IReadOnlyList<Endpoint> All { get; } =
    [
        new("GET", "/api/v1/orders", Right.Read),
        new("GET", "/api/v1/orders.csv", Right.Read),
        new("POST", "/api/v1/orders/import", Right.Plan, "order,customer,variety,plants,ready_on\n", "text/csv"),
        new("POST", "/api/v1/orders/{id}", Right.Plan, "{}"),
        new("GET", "/api/v1/batches", Right.Read),
        new("GET", "/api/v1/batches.csv", Right.Read),
        new("POST", "/api/v1/batches", Right.Plan, "{}"),
        new("POST", "/api/v1/batches/from-orders", Right.Plan, """{"orderLineIds":[]}"""),
        new("GET", "/api/v1/batches/tray-partners", Right.Read),
        new("POST", "/api/v1/batches/share-trays", Right.Plan, "{}"),
        new("POST", "/api/v1/batches/{id}/unshare-trays", Right.Plan, "{}"),
        new("GET", "/api/v1/batches/{id}", Right.Read),
        new("POST", "/api/v1/batches/{id}/discard-trays", Right.Plan, "{}"),
        new("POST", "/api/v1/batches/{id}/sow", Right.Ledger, "{}"),
        new("GET", "/api/v1/batches/{code}/forecast", Right.Read),
        new("GET", "/api/v1/short-stands", Right.Read),
        new("POST", "/api/v1/batches/{id}/resow", Right.Plan, "{}"),
        new("GET", "/api/v1/sowings", Right.Read),
        new("GET", "/api/v1/batches/{code}/sowing-options", Right.Read),
        new("POST", "/api/v1/batches/{id}/replan", Right.Plan, "{}"),
        new("GET", "/api/v1/benches", Right.Read),
        new("GET", "/api/v1/heat-zones", Right.Read),
        new("GET", "/api/v1/outages", Right.Read),
        new("POST", "/api/v1/outages", Right.Plan, "{}"),
        new("POST", "/api/v1/outages/{id}/give-back", Right.Plan),
        new("GET", "/api/v1/heat-and-light", Right.Read),
        new("POST", "/api/v1/heat-zones/readings", Right.Ledger, "{}"),
        new("POST", "/api/v1/heat-zones/readings/import", Right.Ledger, "zone,at,temperature_c\n", "text/csv"),
        new("GET", "/api/v1/heat-zones/readings.csv", Right.Read),
        new("POST", "/api/v1/reservations", Right.Plan, "{}"),
        new("POST", "/api/v1/reservations/first-fit", Right.Plan),
        new("POST", "/api/v1/placements", Right.Plan, """{"notAField":1}"""),
        new("GET", "/api/v1/placements/{id}", Right.Read),
        new("POST", "/api/v1/placements/{id}/stop", Right.Plan),
        new("POST", "/api/v1/plans", Right.Plan, """{"seconds":-1}"""),
        new("GET", "/api/v1/plans/{id}", Right.Read),
        new("POST", "/api/v1/plans/{id}/stop", Right.Plan),
        new("POST", "/api/v1/plans/{id}/accept", Right.Plan),
        new("POST", "/api/v1/plans/{id}/drop", Right.Plan),
        new("GET", "/api/v1/tasks", Right.Read),
        new("POST", "/api/v1/ledger", Right.Ledger, "{}"),
        new("GET", "/api/v1/germination", Right.Read),
        new("GET", "/api/v1/germination.csv", Right.Read),
        new("GET", "/api/v1/papers/germination.pdf", Right.Read),
        new("GET", "/api/v1/reservations.csv", Right.Read),
        new("GET", "/api/v1/standings.csv", Right.Read),
        new("GET", "/api/v1/tasks.csv", Right.Read),
        new("GET", "/api/v1/setpoints.csv", Right.Read),
        new("GET", "/api/v1/ledger.csv", Right.Read),
        new("GET", "/api/v1/papers/bench-tags.pdf", Right.Read),
        new("GET", "/api/v1/papers/sowing-sheet.pdf", Right.Read),
        new("GET", "/api/v1/papers/mix-sheet.pdf", Right.Read),
        new("GET", "/api/v1/papers/tray-tags.pdf", Right.Read),
        new("POST", "/api/v1/papers/tray-tags/runs", Right.Read, """{"paper":"no paper"}"""),
        new("GET", "/api/v1/papers/tray-tags/runs/{id}", Right.Read),
        new("GET", "/api/v1/papers/tray-tags/runs/{id}/tags.pdf", Right.Read),
        new("POST", "/api/v1/papers/tray-tags/runs/{id}/stop", Right.Read),
        new("GET", "/api/v1/papers/round-sheet.pdf", Right.Read),
        new("GET", "/api/v1/papers/bench-plan.pdf", Right.Read),
        new("GET", "/api/v1/papers/plan-time-line.pdf", Right.Read),
        new("GET", "/api/v1/papers/carry-list.pdf", Right.Read),
        new("GET", "/api/v1/papers/pick-list.pdf", Right.Read),
        new("GET", "/api/v1/papers/patch-sheet.pdf", Right.Read),
        new("GET", "/api/v1/agronomy/crops", Right.Read),
        new("GET", "/api/v1/agronomy/emergence", Right.Read),
        new("POST", "/api/v1/agronomy/emergence-forecast", Right.Read, "{}"),
        new("POST", "/api/v1/agronomy/sowing", Right.Read, "{}"),
        new("POST", "/api/v1/agronomy/germination-figures", Right.Read, "{}"),
        new("POST", "/api/v1/agronomy/viability", Right.Read, "{}"),
        new("GET", "/api/v1/agronomy/sun", Right.Read),
        new("GET", "/api/v1/agronomy/air", Right.Read),
        new("POST", "/api/v1/agronomy/light", Right.Read, "{}"),
        new("POST", "/api/v1/agronomy/reference-evapotranspiration", Right.Read, "{}"),
        new("POST", "/api/v1/agronomy/degree-days", Right.Read, "{}"),
        new("POST", "/api/v1/agronomy/feed", Right.Read, "{}"),
        new("POST", "/api/v1/agronomy/mix", Right.Read, "{}"),
        new("GET", "/api/v1/agronomy/standards/kinds", Right.Read),
        new("GET", "/api/v1/agronomy/standards/germination-minimum", Right.Read),
        new("POST", "/api/v1/agronomy/standards/replicate-range", Right.Read, "{}"),
        .. new SetupLists().All.SelectMany(list => new Endpoint[]
        {
            new("GET", $"/api/v1/setup/{list.Name}.csv", list.Right),
            new("POST", $"/api/v1/setup/{list.Name}/import", list.Right, string.Join(',', list.ColumnNames) + "\n", "text/csv"),
        }),
    ];

    public HttpRequestMessage Request()
    {
        var request = new HttpRequestMessage(new HttpMethod(Method), Path.Replace("{id}", Id, StringComparison.Ordinal));
        if (Body is not null)
        {
            request.Content = new StringContent(Body, System.Text.Encoding.UTF8, ContentType);
        }

        return request;
    }
}
