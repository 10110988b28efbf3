using System.Net;
using System.Text;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class SowingTests(ApiServer server)
{
    [Fact]
    public async Task Sowings_OptionsAndReplan_GoTogether()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        await nursery.ImportAsync($"W-1,Farm,{nursery.Pepper.Code},100,{Wire.Iso(nursery.Today.PlusDays(90))}");
        var line = Assert.Single((await client.GetJsonAsync("/api/v1/orders")).Items());
        var planned = await (await client.PostJsonAsync("/api/v1/batches", new
        {
            varietyCode = nursery.Pepper.Code,
            lotCode = nursery.PepperLot.Code,
            trays = 2,
            cellsPerTray = 72,
            seedsPerCell = 1,
            sowOn = Wire.Iso(nursery.Today),
            allocations = new[] { new { orderLineId = line.Text("id"), plants = 100 } },
        })).JsonAsync(HttpStatusCode.Created);
        var (id, code) = (planned.Text("id"), planned.Text("code"));

        var list = await client.GetJsonAsync($"/api/v1/sowings?from={Wire.Iso(nursery.Today)}");
        var day = Assert.Single(list.GetProperty("days").EnumerateArray());
        Assert.Equal(144 * 0.043 * 1.1 * 1.05, day.GetProperty("mix").GetProperty("liters").GetDouble(), 9);
        var item = Assert.Single(day.GetProperty("items").EnumerateArray());
        Assert.Equal((code, 144), (item.Text("batchCode"), item.Whole("seedsToTake")));
        Assert.All(item.GetProperty("how").EnumerateArray(), how => Assert.NotEmpty(how.Text("source")));

        var options = await client.GetJsonAsync($"/api/v1/batches/{code}/sowing-options");
        Assert.Equal(5, options.GetProperty("ways").GetArrayLength());
        Assert.Equal(item.GetProperty("chance").GetDouble(), options.GetProperty("planned").GetProperty("chance").GetDouble());
        var version = options.Whole("version");
        var two = options.GetProperty("ways")[1];

        var change = new { version, seedsPerCell = 2, trays = two.Whole("trays") };
        var tried = await (await client.PostJsonAsync($"/api/v1/batches/{id}/replan?dryRun=true", change)).JsonAsync(HttpStatusCode.OK);
        Assert.Contains(tried.GetProperty("follows").EnumerateArray(), sentence => sentence.GetString() == "2 seeds a cell instead of 1: 288 seeds to take");
        Assert.Equal(version, (await client.GetJsonAsync($"/api/v1/batches/{id}/sowing-options")).Whole("version"));
        await (await client.PostJsonAsync($"/api/v1/batches/{id}/replan", change)).JsonAsync(HttpStatusCode.OK);
        var after = await client.GetJsonAsync($"/api/v1/batches/{id}/sowing-options");
        Assert.Equal(two.GetProperty("chance").GetDouble(), after.GetProperty("planned").GetProperty("chance").GetDouble());

        await (await client.PostJsonAsync($"/api/v1/batches/{id}/replan", change)).ProblemAsync(409, "ChangedMeanwhile");
        var none = await (await client.PostJsonAsync($"/api/v1/batches/{id}/replan", new { version = version + 1, seedsPerCell = 51 })).ProblemAsync(422);
        Assert.Equal("1–50", none.Error("seedsPerCell").Text("allowed"));
        await (await client.PostJsonAsync($"/api/v1/batches/{Guid.Empty}/replan", change)).ProblemAsync(404, "NotFound");
        await (await client.GetAsync("/api/v1/batches/none/sowing-options")).ProblemAsync(404, "NotFound");
        await (await client.GetAsync("/api/v1/sowings?from=2026-03-02&to=2026-03-01")).ProblemAsync(422);
    }

    [Fact]
    public async Task MixSheet_IsAPaper()
    {
        using var paper = await server.Client.GetAsync("/api/v1/papers/mix-sheet.pdf?paper=a4");
        Assert.Equal("%PDF-", Encoding.ASCII.GetString((await paper.Content.ReadAsByteArrayAsync())[..5]));
        await (await server.Client.GetAsync("/api/v1/papers/mix-sheet.pdf?from=2026-03-02&to=2026-03-01")).ProblemAsync(422);
    }
}
