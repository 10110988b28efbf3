using System.Net;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Tasks;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class ChainTests(ApiServer server)
{
    [Fact]
    public async Task Chain_OrderToGerminationAndTag_EachCallWorks()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;

        // 8 weeks at the best temperature, two days more on the heat of the nursery's zone, the site's 7 days.
        var ready = nursery.Today.PlusDays(58 + 7);
        var file = $"order,customer,variety,plants,ready_on\nO-1,\"Invented Farm, Ltd\",{nursery.Pepper.Code},500,{Wire.Iso(ready)}\n";

        var dry = await (await client.PostAsync("/api/v1/orders/import?dryRun=true", Wire.Csv(file))).JsonAsync(HttpStatusCode.OK);
        Assert.Equal("""{"dryRun":true,"rows":1,"created":1,"newVarieties":0,"startingCrops":[],"errors":[]}""", dry.GetRawText());
        Assert.Empty((await client.GetJsonAsync("/api/v1/orders")).Items());
        var imported = await (await client.PostAsync("/api/v1/orders/import", Wire.Csv(file))).JsonAsync(HttpStatusCode.OK);
        Assert.Equal("""{"dryRun":false,"rows":1,"created":1,"newVarieties":0,"startingCrops":[],"errors":[]}""", imported.GetRawText());
        var again = await (await client.PostAsync("/api/v1/orders/import", Wire.Csv(file))).JsonAsync(HttpStatusCode.OK);
        Assert.Equal(0, again.Whole("created"));
        var line = Assert.Single((await client.GetJsonAsync("/api/v1/orders")).Items());
        Assert.Equal(
            ("O-1", "Invented Farm, Ltd", nursery.Pepper.Code, "PE", 500, Wire.Iso(ready), 0),
            (line.Text("order"), line.Text("customer"), line.Text("varietyCode"), line.Text("cropCode"), line.Whole("plants"),
                line.Text("readyOn"), line.Whole("allocatedPlants")));

        var made = await (await client.PostJsonAsync("/api/v1/batches/from-orders", new { orderLineIds = new[] { line.Text("id") } }))
            .JsonAsync(HttpStatusCode.OK);
        var batch = Assert.Single(made.GetProperty("created").EnumerateArray());
        Assert.Equal(("planned", Wire.Iso(nursery.Today)), (batch.Text("stage"), batch.Text("sowOn")));
        var placed = await (await client.PostAsync("/api/v1/reservations/first-fit", null)).JsonAsync(HttpStatusCode.OK);
        Assert.Equal(1, placed.Whole("placed"));

        await server.Services.GetRequiredService<RaiseTasks>().HandleAsync();
        var sow = Assert.Single((await client.GetJsonAsync("/api/v1/tasks")).Items());
        Assert.Equal(
            ("sow", batch.Text("code"), "H1", "G1", "open"),
            (sow.Text("kind"), sow.Text("batchCode"), sow.Text("house"), sow.Text("benchCode"), sow.Text("state")));
        await AppliedAsync(client, nursery, $"\"kind\":\"done\",\"taskId\":\"{sow.Text("id")}\"");
        await AppliedAsync(
            client, nursery, $"\"kind\":\"count\",\"batchId\":\"{batch.Text("id")}\",\"what\":\"seedlings\",\"value\":108,\"trays\":[1],\"cells\":72,\"sample\":true");

        var shown = await client.GetJsonAsync($"/api/v1/batches/{batch.Text("id")}");
        Assert.Equal(("emerging", 108m, 144), (shown.Text("stage"), shown.GetProperty("countedUp").GetDecimal(), shown.Whole("countedSeeds")));
        Assert.Equal(2, shown.GetProperty("reservations").GetArrayLength());
        Assert.Equal("G1", Assert.Single(shown.GetProperty("standings").EnumerateArray()).Text("benchCode"));
        Assert.Equal(line.Text("id"), Assert.Single(shown.GetProperty("allocations").EnumerateArray()).Text("orderLineId"));
        Assert.Contains(shown.GetProperty("story").EnumerateArray(), told => told.Text("kind") == "count");

        var rate = Assert.Single((await client.GetJsonAsync("/api/v1/germination?by=crop")).Items());
        Assert.Equal(("PE", 1, 144, 108m, 0.75m), (rate.Text("key"), rate.Whole("batches"), rate.Whole("seeds"),
            rate.GetProperty("emerged").GetDecimal(), rate.GetProperty("fraction").GetDecimal()));
        Assert.Equal(JsonValueKind.Null, rate.GetProperty("fractionSpread").ValueKind);

        using var paper = await client.GetAsync("/api/v1/papers/bench-tags.pdf?house=H1&paper=a4");
        Assert.Equal(HttpStatusCode.OK, paper.StatusCode);
        Assert.Equal("application/pdf", paper.Content.Headers.ContentType?.MediaType);
        Assert.Equal("bench-tags-H1.pdf", paper.Content.Headers.ContentDisposition?.FileName);
        Assert.Equal("%PDF-", Encoding.ASCII.GetString((await paper.Content.ReadAsByteArrayAsync())[..5]));
    }

    [Fact]
    public async Task Batches_PlannedReservedAndSownOneByOne_AnswersAsTheContractSays()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        var today = Wire.Iso(nursery.Today);
        using var created = await client.PostJsonAsync(
            "/api/v1/batches",
            new { varietyCode = nursery.Lettuce.Code, trays = 2, cellsPerTray = 128, seedsPerCell = 1, sowOn = today, unknownMember = 1 });
        var batch = await created.JsonAsync(HttpStatusCode.Created);
        Assert.Equal(
            ["id", "code", "traySetCode", "stage", "trays", "sowOn", "readyOn"],
            batch.EnumerateObject().Select(member => member.Name));
        Assert.Equal($"/api/v1/batches/{batch.Text("id")}", created.Headers.Location?.OriginalString);

        // Spaces 1–10 are set to 40 °C, too hot for lettuce (it germinates to 35.00): the first free run that suits begins at 11.
        await SetZoneAsync(nursery, "Z80", 40m);
        var body = new { traySetCode = batch.Text("traySetCode"), benchCode = "G1", trays = 2, from = today, to = Wire.Iso(nursery.Today.PlusDays(5)) };
        var reserved = await (await client.PostJsonAsync("/api/v1/reservations", body)).JsonAsync(HttpStatusCode.Created);
        Assert.Equal(
            ["id", "benchCode", "firstSpace", "spaces", "from", "to"], reserved.EnumerateObject().Select(member => member.Name));
        Assert.Equal(("G1", 11, 2, body.from, body.to), (reserved.Text("benchCode"), reserved.Whole("firstSpace"),
            reserved.Whole("spaces"), reserved.Text("from"), reserved.Text("to")));

        var tooHot = await (await client.PostJsonAsync(
            "/api/v1/reservations", new { body.traySetCode, body.benchCode, body.trays, firstSpace = 1, body.from, body.to })).ProblemAsync(409, "TooHot");
        Assert.Equal(
            (40m, 1.67m, 26.67m),
            (tooHot.GetProperty("setpointC").GetDecimal(), tooHot.GetProperty("cropMinC").GetDecimal(), tooHot.GetProperty("cropMaxC").GetDecimal()));
        var taken = await (await client.PostJsonAsync(
            "/api/v1/reservations", new { body.traySetCode, body.benchCode, body.trays, firstSpace = 12, body.from, body.to })).ProblemAsync(409, "SpaceTaken");
        Assert.Equal((body.traySetCode, body.to), (taken.Text("heldBy"), taken.Text("until")));
        var beyond = await (await client.PostJsonAsync(
            "/api/v1/reservations", new { body.traySetCode, body.benchCode, body.trays, firstSpace = 24, body.from, body.to })).ProblemAsync(422, "InvalidFields");
        Assert.Equal("24", beyond.Error("firstSpace").Text("value"));

        var path = $"/api/v1/batches/{batch.Text("id")}/sow";
        var sowing = new { entryId = Guid.CreateVersion7(), lotCode = nursery.LettuceLot.Code, on = today };
        var sown = await (await client.PostJsonAsync(path, sowing)).JsonAsync(HttpStatusCode.OK);
        Assert.Equal(("sown", today, nursery.LettuceLot.Code), (sown.Text("stage"), sown.Text("sownOn"), sown.Text("lotCode")));
        await (await client.PostJsonAsync(path, sowing)).JsonAsync(HttpStatusCode.OK);
        await (await client.PostJsonAsync(path, new { entryId = Guid.CreateVersion7(), sowing.lotCode, sowing.on })).ProblemAsync(409, "AlreadySown");
    }

    private static async Task SetZoneAsync(TestNursery nursery, string zone, decimal setpointC)
    {
        await using var database = await nursery.DatabaseAsync();
        await database.HeatZones.Where(row => row.SiteId == nursery.At.Site.Id && row.Code == zone)
            .ExecuteUpdateAsync(row => row.SetProperty(x => x.SetpointC, setpointC));
    }

    private static async Task AppliedAsync(HttpClient client, TestNursery nursery, string content)
    {
        var now = nursery.Clock.GetUtcNow().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture);
        using var response = await client.PostAsync(
            "/api/v1/ledger", Wire.Json($$"""{"entries":[{"id":"{{Guid.CreateVersion7()}}","happenedAt":"{{now}}",{{content}}}]}"""));
        var result = Assert.Single((await response.JsonAsync(HttpStatusCode.OK)).GetProperty("results").EnumerateArray());
        Assert.True(result.Text("outcome") == "applied", result.GetRawText());
    }
}
