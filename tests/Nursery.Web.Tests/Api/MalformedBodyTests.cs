using System.Net;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>Requests with wrong types, missing members and values outside what is allowed.</summary>
[Collection(ApiCollection.Name)]
public sealed class MalformedBodyTests(ApiServer server)
{
    private const string Id = "0195a3c8-1f2e-7abc-8def-0123456789ab";
    private const string Batches = "/api/v1/batches";
    private const string Reservations = "/api/v1/reservations";
    private const string Sow = $"/api/v1/batches/{Id}/sow";

    public static TheoryData<string, string, string, int> Bodies => new()
    {
        { Batches, "", "body", 400 },
        { Batches, "{", "body", 400 },
        { Batches, "[]", "body", 400 },
        { Batches, "null", "body", 400 },
        { Batches, """{"trays":1,"trays":2}""", "body", 400 },
        { Batches, "{}", "varietyCode", 400 },
        { Batches, Batch("\"varietyCode\":7"), "varietyCode", 400 },
        { Batches, Batch("\"varietyCode\":\"PE\\u0000LANT\""), "varietyCode", 400 },
        { Batches, Batch("\"varietyCode\":\"\\ud800\""), "varietyCode", 400 },
        { Batches, Batch("\"varietyCode\":\"XX-NONE\""), "varietyCode", 422 },
        { Batches, Batch("\"lotCode\":\"L-0000\""), "lotCode", 422 },
        { Batches, Batch("\"trays\":\"4\""), "trays", 400 },
        { Batches, Batch("\"trays\":1.5"), "trays", 400 },
        { Batches, Batch("\"trays\":99999999999"), "trays", 400 },
        { Batches, Batch("\"trays\":null"), "trays", 400 },
        { Batches, Batch("\"trays\":0"), "trays", 422 },
        { Batches, Batch("\"trays\":-3"), "trays", 422 },
        { Batches, Batch("\"trays\":10001"), "trays", 422 },
        { Batches, Batch("\"cellsPerTray\":0"), "cellsPerTray", 422 },
        { Batches, Batch("\"cellsPerTray\":513"), "cellsPerTray", 422 },
        { Batches, Batch("\"seedsPerCell\":true"), "seedsPerCell", 400 },
        { Batches, Batch("\"seedsPerCell\":51"), "seedsPerCell", 422 },
        { Batches, Batch("\"sowOn\":\"2026-02-30\""), "sowOn", 400 },
        { Batches, Batch("\"sowOn\":\"2026-6-1\""), "sowOn", 400 },
        { Batches, Batch("\"sowOn\":\"2026-06-01T00:00:00Z\""), "sowOn", 400 },
        { Batches, Batch("\"sowOn\":20260601"), "sowOn", 400 },
        { Batches, Batch("\"sowOn\":\"9999-12-31\""), "sowOn", 400 },
        { Batches, Batch("\"sowOn\":\"2026-03-01\""), "sowOn", 422 },
        { Batches, Batch("\"sowOn\":\"2036-03-03\""), "sowOn", 422 },
        { Batches, Batch("\"allocations\":{}"), "allocations", 400 },
        { Batches, Batch("\"allocations\":[7]"), "allocations[0]", 400 },
        { Batches, Batch("\"allocations\":[{\"plants\":5}]"), "allocations[0].orderLineId", 400 },
        { Batches, Batch($"\"allocations\":[{{\"orderLineId\":\"{Id}\",\"plants\":\"5\"}}]"), "allocations[0].plants", 400 },
        { Batches, Batch($"\"allocations\":[{{\"orderLineId\":\"{Id}\",\"plants\":5}}]"), "allocations.orderLineId", 422 },
        { "/api/v1/batches/from-orders", """{"orderLineIds":"all"}""", "orderLineIds", 400 },
        { "/api/v1/batches/from-orders", """{"orderLineIds":["x"]}""", "orderLineIds[0]", 400 },
        { "/api/v1/batches/from-orders", $$"""{"orderLineIds":["{{Id}}"]}""", "orderLineIds", 422 },
        { Reservations, "{}", "traySetCode", 400 },
        { Reservations, Reservation("\"trays\":\"1\""), "trays", 400 },
        { Reservations, Reservation("\"firstSpace\":\"1\""), "firstSpace", 400 },
        { Reservations, Reservation("\"from\":\"2026-02-30\""), "from", 400 },
        { Reservations, Reservation("\"traySetCode\":\"EG-999-X-1\""), "traySetCode", 422 },
        { Reservations, Reservation("\"benchCode\":\"99Z\""), "benchCode", 422 },
        { Reservations, Reservation("\"from\":\"2026-03-01\""), "from", 422 },
        { Reservations, Reservation("\"to\":\"2026-03-02\""), "to", 422 },
        { Sow, "{}", "entryId", 400 },
        { Sow, $$"""{"entryId":"7","lotCode":"L-0401","on":"2026-03-02"}""", "entryId", 400 },
        { Sow, $$"""{"entryId":"00000000-0000-0000-0000-000000000000","on":"2026-03-02"}""", "entryId", 400 },
        { Sow, $$"""{"entryId":"{{Id}}","lotCode":"L-0401","on":"2026-02-30"}""", "on", 400 },
        { Sow, $$"""{"entryId":"{{Id}}","lotCode":"L-0401","on":"2026-03-02"}""", "id", 404 },
        { "/api/v1/batches/not-an-id/sow", $$"""{"entryId":"{{Id}}","on":"2026-03-02"}""", "id", 404 },
    };

    [Theory]
    [MemberData(nameof(Bodies))]
    public async Task Post_WrongBody_NamesFieldValueAndAllowedAndStoresNothing(string path, string body, string field, int status)
    {
        var before = await server.RowsAsync();
        using var response = await server.Client.PostAsync(path, Wire.Json(body));
        (await response.ProblemAsync(status)).Error(field);
        Assert.Equal(before, await server.RowsAsync());
    }

    [Theory]
    [InlineData(Batches, "text/plain")]
    [InlineData(Reservations, "application/xml")]
    [InlineData("/api/v1/ledger", "application/x-www-form-urlencoded")]
    public async Task Post_OtherContent_Is415(string path, string contentType)
    {
        using var response = await server.Client.PostAsync(path, Wire.Csv("{}"u8.ToArray(), contentType));
        Assert.Equal(contentType, (await response.ProblemAsync(415, "UnsupportedContent")).Error("Content-Type").Text("value"));
    }

    [Fact]
    public async Task Post_NotUtf8_Is400()
    {
        using var response = await server.Client.PostAsync(Batches, Wire.Csv([(byte)'{', 0xFF, (byte)'}'], "application/json"));
        (await response.ProblemAsync(400, "Malformed")).Error("body");
    }

    [Theory]
    [InlineData("/api/v1/orders?limit=0", "limit", 422)]
    [InlineData("/api/v1/orders?limit=1001", "limit", 422)]
    [InlineData("/api/v1/orders?limit=2147483647", "limit", 422)]
    [InlineData("/api/v1/orders?limit=ten", "limit", 400)]
    [InlineData("/api/v1/orders?limit=1&limit=2", "limit", 400)]
    [InlineData("/api/v1/batches?cursor=never-given", "cursor", 422)]
    [InlineData("/api/v1/benches?cursor=%00", "cursor", 422)]
    [InlineData("/api/v1/tasks?on=2026-02-30", "on", 400)]
    [InlineData("/api/v1/tasks?on=-9998-01-01", "on", 400)]
    [InlineData("/api/v1/germination?by=color", "by", 400)]
    [InlineData("/api/v1/germination?by=0", "by", 400)]
    [InlineData("/api/v1/germination?by=crop&from=soon", "from", 400)]
    [InlineData("/api/v1/germination?by=crop&from=2026-03-02&to=2026-03-01", "to", 422)]
    [InlineData("/api/v1/papers/bench-tags.pdf?paper=A5", "paper", 400)]
    [InlineData("/api/v1/papers/bench-tags.pdf?house=H99", "house", 422)]
    [InlineData("/api/v1/papers/tray-tags.pdf?paper=roll", "paper", 400)]
    [InlineData("/api/v1/papers/tray-tags.pdf?code=XX-999-9", "code", 422)]
    [InlineData("/api/v1/papers/tray-tags.pdf?house=H99", "house", 422)]
    [InlineData("/api/v1/papers/round-sheet.pdf?house=H99", "house", 422)]
    [InlineData("/api/v1/papers/bench-plan.pdf?house=H99", "house", 422)]
    [InlineData("/api/v1/papers/bench-plan.pdf?on=tomorrow", "on", 400)]
    [InlineData("/api/v1/papers/plan-time-line.pdf?plan=last", "plan", 400)]
    [InlineData("/api/v1/papers/plan-time-line.pdf?plan=proposal", "plan", 422)]
    [InlineData("/api/v1/papers/carry-list.pdf?days=many", "days", 400)]
    [InlineData("/api/v1/papers/carry-list.pdf?days=61", "days", 422)]
    [InlineData("/api/v1/papers/pick-list.pdf?order=none", "order", 422)]
    [InlineData($"/api/v1/batches/{Id}", "id", 404)]
    [InlineData("/api/v1/batches/7", "id", 404)]
    [InlineData("/api/v1/nothing", "path", 404)]
    [InlineData("/api", "path", 404)]
    [InlineData("/api/v2/orders", "path", 404)]
    public async Task Get_WrongAddress_NamesFieldValueAndAllowed(string path, string field, int status)
    {
        using var response = await server.Client.GetAsync(path);
        (await response.ProblemAsync(status)).Error(field);
    }

    [Theory]
    [InlineData("DELETE", "/api/v1/orders", "GET")]
    [InlineData("GET", "/api/v1/ledger", "POST")]
    [InlineData("PUT", "/api/v1/batches", "GET, POST")]
    public async Task Request_MethodNotAnswered_Is405WithThoseThatAre(string method, string path, string allowed)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), path);
        using var response = await server.Client.SendAsync(request);
        Assert.Equal(allowed, (await response.ProblemAsync(405, "MethodNotAllowed")).Error("method").Text("allowed"));
    }

    [Fact]
    public async Task Request_HandlerFails_Is500WithoutDetails()
    {
        await using var broken = await server.StartAsync(services => services.Add(new(
            typeof(Nursery.Application.Benches.ListBenches),
            _ => throw new InvalidOperationException("the inner secret"),
            Microsoft.Extensions.DependencyInjection.ServiceLifetime.Transient)));
        using var client = server.ClientOf(server.Demo.ApiKey);
        client.BaseAddress = new Uri(broken.Urls.Single());
        using var response = await client.GetAsync("/api/v1/benches");
        await response.ProblemAsync(500, "ServerFault");
        Assert.DoesNotContain("secret", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await broken.StopAsync();
    }

    [Fact]
    public async Task Papers_EmptyValues_CountAsNotGiven()
    {
        using var response = await server.Client.GetAsync("/api/v1/papers/bench-tags.pdf?house=&paper=");
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }

    private static string Batch(string instead) => Changed(
        $$"""{"varietyCode":"PE-LANT","trays":4,"cellsPerTray":72,"seedsPerCell":2,"sowOn":"{{Wire.Iso(Today)}}"}""", instead);

    private static string Reservation(string instead) => Changed(
        $$"""{"traySetCode":"PE-999-X-1","benchCode":"1A","trays":1,"from":"{{Wire.Iso(Today)}}","to":"{{Wire.Iso(Today.PlusDays(3))}}"}""", instead);

    private static NodaTime.LocalDate Today => NodaTime.LocalDate.FromDateTime(TestNursery.Start.Date);

    /// <summary>The body with one member replaced or added.</summary>
    private static string Changed(string body, string instead)
    {
        var name = instead.Split(':')[0].Trim('"');
        var rest = System.Text.Json.Nodes.JsonNode.Parse(body)!.AsObject();
        rest.Remove(name);
        return rest.Count == 0 ? $"{{{instead}}}" : $"{rest.ToJsonString()[..^1]},{instead}}}";
    }
}
