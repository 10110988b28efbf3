using System.Net;
using System.Text;
using Nursery.Application.Rounds;
using Nursery.Domain.Ledger;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class ForecastTests(ApiServer server)
{
    [Fact]
    public async Task Forecast_ShortStandAndResow_AnswerWithHow()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        await nursery.ImportAsync($"F-1,Farm,{nursery.Pepper.Code},200,{Wire.Iso(nursery.Today.PlusDays(120))}");
        var line = Assert.Single((await client.GetJsonAsync("/api/v1/orders")).Items());
        var planned = await (await client.PostJsonAsync("/api/v1/batches", new
        {
            varietyCode = nursery.Pepper.Code,
            lotCode = nursery.PepperLot.Code,
            trays = 3,
            cellsPerTray = 72,
            seedsPerCell = 2,
            sowOn = Wire.Iso(nursery.Today),
            allocations = new[] { new { orderLineId = line.Text("id"), plants = 200 } },
        })).JsonAsync(HttpStatusCode.Created);
        var id = Guid.Parse(planned.Text("id"));
        await (await client.PostJsonAsync($"/api/v1/batches/{id}/sow", new { entryId = nursery.NewEntryId(), on = Wire.Iso(nursery.Today) })).JsonAsync(HttpStatusCode.OK);
        var before = (await client.GetJsonAsync($"/api/v1/batches/{planned.Text("code")}/forecast")).GetProperty("forecast");
        Assert.Equal("expected", before.Text("basis"));
        Assert.All(before.GetProperty("how").EnumerateArray(), how => Assert.NotEmpty(how.Text("source")));

        await nursery.RecordAsync(new PlantsCounted(id, CountWhat.CellsUp, 90, null, null, false), at: server.Clock.GetUtcNow().AddMinutes(1));
        var after = await client.GetJsonAsync($"/api/v1/batches/{id}/forecast");
        Assert.Equal("counted", after.GetProperty("forecast").Text("basis"));
        Assert.NotEmpty(after.GetProperty("expectedNow").EnumerateArray());
        Assert.Equal(0, Assert.Single(after.GetProperty("counted").EnumerateArray()).Whole("day"));

        var none = await (await client.PostJsonAsync($"/api/v1/batches/{id}/resow", new { varietyCode = nursery.Pepper.Code, trays = 1, plants = 900 })).ProblemAsync(422);
        Assert.Equal("1–200, what is ordered of batch " + planned.Text("code"), none.Error("plants").Text("allowed"));
        var resow = new { varietyCode = nursery.Pepper.Code, trays = 1, plants = 50 };
        Assert.Equal("planned", (await (await client.PostJsonAsync($"/api/v1/batches/{id}/resow", resow)).JsonAsync(HttpStatusCode.Created)).Text("stage"));
        await (await client.PostJsonAsync($"/api/v1/batches/{id}/resow", resow)).ProblemAsync(409, "ResowWaits");
        Assert.Equal(150, (await client.GetJsonAsync($"/api/v1/batches/{id}/forecast")).GetProperty("forecast").Whole("wanted"));
    }

    [Fact]
    public async Task ShortStands_AreAList_AndThePatchSheetIsAPaper()
    {
        var list = await server.Client.GetJsonAsync("/api/v1/short-stands");
        Assert.Equal(System.Text.Json.JsonValueKind.Array, list.ValueKind);
        using var paper = await server.Client.GetAsync("/api/v1/papers/patch-sheet.pdf");
        Assert.Equal("%PDF-", Encoding.ASCII.GetString((await paper.Content.ReadAsByteArrayAsync())[..5]));
        await (await server.Client.GetAsync("/api/v1/papers/patch-sheet.pdf?code=no")).ProblemAsync(422);
        await (await server.Client.GetAsync("/api/v1/batches/no/forecast")).ProblemAsync(404, "NotFound");
    }
}
