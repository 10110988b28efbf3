using System.Globalization;
using System.Net;
using System.Text.Json;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class LedgerTests(ApiServer server)
{
    private const string Ledger = "/api/v1/ledger";
    private const string Id = "0195a3c8-1f2e-7abc-8def-0123456789ab";
    private const string Good = $$"""{"id":"0195a3c8-0000-7abc-8def-0123456789ab","happenedAt":"2026-03-02T09:00:00-06:00","kind":"surface","benchCode":"1A","state":"damp"}""";

    public static TheoryData<string, string> Envelopes => new()
    {
        { "{}", "entries" },
        { """{"entries":{}}""", "entries" },
        { """{"entries":[]}""", "entries" },
        { $$"""{"entries":[{{string.Join(',', Enumerable.Repeat("{}", 201))}}]}""", "entries" },
        { """{"entries":[7]}""", "entries[0]" },
        { With("\"kind\":\"wave\""), "entries[1].kind" },
        { With("\"kind\":\"Done\""), "entries[1].kind" },
        { With("\"kind\":0"), "entries[1].kind" },
        { Entry("\"kind\":\"done\"", happenedAt: "2026-03-02T09:00:00"), "entries[1].happenedAt" },
        { Entry("\"kind\":\"done\"", happenedAt: "2026-02-30T09:00:00Z"), "entries[1].happenedAt" },
        { Entry("\"kind\":\"done\"", id: "nil"), "entries[1].id" },
        { Entry("\"kind\":\"done\"", id: "00000000-0000-0000-0000-000000000000"), "entries[1].id" },
        { With("\"kind\":\"done\""), "entries[1].taskId" },
        { With("\"kind\":\"undo\",\"entryId\":null"), "entries[1].entryId" },
        { With($"\"kind\":\"notYet\",\"taskId\":\"{Id}\""), "entries[1].reason" },
        { With($"\"kind\":\"notYet\",\"taskId\":\"{Id}\",\"reason\":\"too\\nwet\""), "entries[1].reason" },
        { With($"\"kind\":\"count\",\"batchId\":\"{Id}\",\"what\":\"leaves\",\"value\":1"), "entries[1].what" },
        { With($"\"kind\":\"count\",\"batchId\":\"{Id}\",\"what\":\"blanks\",\"value\":\"1\""), "entries[1].value" },
        { With($"\"kind\":\"count\",\"batchId\":\"{Id}\",\"what\":\"blanks\",\"value\":1,\"sample\":\"no\""), "entries[1].sample" },
        { With($"\"kind\":\"count\",\"batchId\":\"{Id}\",\"what\":\"blanks\",\"value\":1,\"trays\":[1,\"2\"]"), "entries[1].trays[1]" },
        { With("\"kind\":\"surface\",\"benchCode\":\"1A\",\"state\":\"soaked\""), "entries[1].state" },
        { With($"\"kind\":\"loss\",\"batchId\":\"{Id}\",\"plants\":2.5,\"cause\":\"mice\""), "entries[1].plants" },
        { With("\"kind\":\"worked\",\"benchCode\":\"1A\",\"task\":\"dance\""), "entries[1].task" },
        { With("\"kind\":\"worked\",\"batchId\":\"7\",\"words\":\"swept\""), "entries[1].batchId" },
        { With("\"kind\":\"moved\",\"traySetCode\":\"X\",\"benchCode\":\"1A\""), "entries[1].trays" },
        { With("\"kind\":\"moved\",\"traySetCode\":\"X\",\"trays\":1,\"benchCode\":\"1A\",\"firstSpace\":\"1\""), "entries[1].firstSpace" },
    };

    [Theory]
    [MemberData(nameof(Envelopes))]
    public async Task Post_OneEntryCannotBeRead_Is400AndStoresNoneOfThem(string body, string field)
    {
        var before = await server.RowsAsync();
        using var response = await server.Client.PostAsync(Ledger, Wire.Json(body));
        (await response.ProblemAsync(400, "Malformed")).Error(field);
        Assert.Equal(before, await server.RowsAsync());
    }

    [Fact]
    public async Task Post_EveryKind_IsAppliedOrRefusedOnItsOwnInOrder()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        var batch = await SownAsync(client, nursery);
        var ids = Enumerable.Range(0, 14).Select(_ => Guid.CreateVersion7()).ToArray();
        string[] contents =
        [
            """ "kind":"surface","benchCode":"C1","state":"dry" """,
            $$""" "kind":"count","batchId":"{{batch.Id}}","what":"cellsUp","value":60,"trays":1 """,
            $$""" "kind":"count","batchId":"{{batch.Id}}","what":"blanks","value":3,"trays":[2],"sample":true """,
            $$""" "kind":"loss","batchId":"{{batch.Id}}","plants":4,"cause":"mice" """,
            $$""" "kind":"moved","traySetCode":"{{batch.TraySet}}","trays":[1,2],"benchCode":"C1","firstSpace":3 """,
            $$""" "kind":"undo","entryId":"{{ids[3]}}" """,
            $$""" "kind":"done","taskId":"{{Id}}" """,
            $$""" "kind":"notYet","taskId":"{{Id}}","reason":"no trays" """,
            $$""" "kind":"count","batchId":"{{batch.Id}}","what":"seedlings","value":-1 """,
            $$""" "kind":"loss","batchId":"{{Id}}","plants":1,"cause":"mice" """,
            $$""" "kind":"moved","traySetCode":"{{batch.TraySet}}","trays":3,"benchCode":"C1" """,
            """ "kind":"surface","benchCode":"Z9","state":"wet" """,
            """ "kind":"worked","benchCode":"C1","task":"water","words":"by hose" """,
            """ "kind":"worked","benchCode":"C1" """,
        ];
        var entries = contents.Select((content, index) => Line(ids[index], content, nursery)).ToList();
        entries.Add(entries[0]);
        entries.Add(Line(ids[0], contents[11], nursery));

        using var response = await client.PostAsync(Ledger, Wire.Json($$"""{"entries":[{{string.Join(',', entries)}}]}"""));
        var results = (await response.JsonAsync(HttpStatusCode.OK)).GetProperty("results").EnumerateArray().ToList();
        Assert.Equal([.. ids.Select(id => id.ToString()), ids[0].ToString(), ids[0].ToString()], results.Select(result => result.Text("id")));
        Assert.Equal(
            [
                "applied", "applied", "applied", "applied", "applied", "applied",
                "404 NotFound", "404 NotFound", "422 InvalidFields", "404 NotFound", "422 InvalidFields", "404 NotFound",
                "applied", "422 InvalidFields", "repeated", "409 EntryDiffers",
            ],
            results.Select(Outcome));

        var shown = await client.GetJsonAsync($"/api/v1/batches/{batch.Id}");
        Assert.Equal(0, shown.Whole("lostPlants"));
        var stands = Assert.Single(shown.GetProperty("standings").EnumerateArray());
        Assert.Equal(("C1", 3, 2), (stands.Text("benchCode"), stands.Whole("firstSpace"), stands.Whole("spaces")));
        Assert.True(shown.GetProperty("story").EnumerateArray().Single(told => told.Text("kind") == "loss").GetProperty("undone").GetBoolean());
    }

    private static string Outcome(JsonElement result)
    {
        if (result.Text("outcome") != "refused")
        {
            Assert.False(result.TryGetProperty("problem", out _));
            return result.Text("outcome");
        }

        var problem = result.GetProperty("problem");
        Wire.CheckProblem(problem, problem.Whole("status"), null);
        return $"{problem.Whole("status")} {problem.Text("code")}";
    }

    private static async Task<(string Id, string TraySet)> SownAsync(HttpClient client, TestNursery nursery)
    {
        var today = Wire.Iso(nursery.Today);
        var batch = await (await client.PostJsonAsync(
            "/api/v1/batches",
            new { varietyCode = nursery.Lettuce.Code, trays = 2, cellsPerTray = 128, seedsPerCell = 1, sowOn = today, allocations = Array.Empty<int>() }))
            .JsonAsync(HttpStatusCode.Created);
        var sow = new { entryId = Guid.CreateVersion7(), lotCode = nursery.LettuceLot.Code, on = today };
        await (await client.PostJsonAsync($"/api/v1/batches/{batch.Text("id")}/sow", sow)).JsonAsync(HttpStatusCode.OK);
        return (batch.Text("id"), batch.Text("traySetCode"));
    }

    private static string Line(Guid id, string content, TestNursery nursery)
    {
        var at = nursery.Clock.GetUtcNow().ToString("yyyy-MM-dd'T'HH:mm:ss'+00:00'", CultureInfo.InvariantCulture);
        return $$"""{"id":"{{id}}","happenedAt":"{{at}}",{{content}}}""";
    }

    private static string With(string content) => Entry(content);

    /// <summary>A good entry and then one with this content.</summary>
    private static string Entry(string content, string id = Id, string happenedAt = "2026-03-02T09:00:00-06:00") =>
        $$"""{"entries":[{{Good}},{"id":"{{id}}","happenedAt":"{{happenedAt}}",{{content}}}]}""";
}
