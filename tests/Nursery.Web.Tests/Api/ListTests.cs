using System.Text.Json;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class ListTests(ApiServer server)
{
    [Theory]
    [InlineData("/api/v1/orders", 17)]
    [InlineData("/api/v1/batches", 7)]
    [InlineData("/api/v1/benches", 3)]
    [InlineData("/api/v1/heat-zones", 1)]
    [InlineData("/api/v1/tasks", 2)]
    [InlineData("/api/v1/germination?by=variety", 1)]
    public async Task List_PageByPage_GivesEveryItemOnceInTheSameOrder(string path, int limit)
    {
        var whole = await server.Client.GetJsonAsync(With(path, "limit=1000"));
        Assert.Equal(JsonValueKind.Null, whole.GetProperty("next").ValueKind);
        var expected = whole.Items().ConvertAll(item => item.GetRawText());
        Assert.True(expected.Count > limit, $"only {expected.Count} items");

        var read = new List<string>();
        for (string? cursor = null; ;)
        {
            var page = await server.Client.GetJsonAsync(With(path, $"limit={limit}" + (cursor is null ? "" : $"&cursor={cursor}")));
            Assert.InRange(page.Items().Count, 1, limit);
            read.AddRange(page.Items().Select(item => item.GetRawText()));
            if (page.GetProperty("next").ValueKind == JsonValueKind.Null)
            {
                break;
            }

            cursor = page.Text("next");
        }

        Assert.Equal(expected, read);
    }

    [Fact]
    public async Task List_WithoutLimit_GivesAHundred() =>
        Assert.Equal(100, (await server.Client.GetJsonAsync("/api/v1/orders")).Items().Count);

    [Theory]
    [InlineData("/api/v1/orders", "id,order,customer,varietyCode,cropCode,plants,readyOn,allocatedPlants")]
    [InlineData("/api/v1/batches", "id,code,traySetCode,stage,varietyCode,cropCode,lotCode,trays,cellsPerTray,seedsPerCell,sowOn,readyOn")]
    [InlineData("/api/v1/benches", "id,code,house,kind,band,spaces")]
    [InlineData("/api/v1/heat-zones", "id,code,house,benchCode,firstSpace,spaces,setpointC,readsC")]
    [InlineData("/api/v1/tasks", "id,kind,subject,batchCode,house,benchCode,dueOn,state,why")]
    [InlineData("/api/v1/germination?by=crop", "key,name,batches,seeds,emerged,fraction,fractionSpread,labelFraction,labelDifference,minimumKind,minimumFraction,minimumDifference,halfDays,halfBatches")]
    public async Task List_Item_HasTheMembersOfTheContract(string path, string members)
    {
        ArgumentNullException.ThrowIfNull(members);
        Assert.All((await server.Client.GetJsonAsync(path)).Items(), item => Assert.All(
            members.Split(','), member => Assert.True(item.TryGetProperty(member, out _), $"{path} has no {member}")));
    }

    [Fact]
    public async Task Lists_WordsAreSpeltAsInTheContract()
    {
        var benches = (await server.Client.GetJsonAsync("/api/v1/benches")).Items();
        Assert.Equal(["germination", "growing", "hardening"], benches.Select(bench => bench.Text("kind")).Distinct().Order());
        Assert.All(benches, bench => Assert.Contains(bench.Text("band"), new[] { "warm", "cool", "" }));
        var stages = (await server.Client.GetJsonAsync("/api/v1/batches")).Items().Select(batch => batch.Text("stage"));
        Assert.All(stages, stage => Assert.Contains(
            stage, new[] { "planned", "sown", "emerging", "growingOn", "hardeningOff", "ready", "handedOver", "discarded" }));
        Assert.All((await server.Client.GetJsonAsync("/api/v1/tasks")).Items(), task => Assert.Equal("open", task.Text("state")));
    }

    [Fact]
    public async Task EveryRead_OfAnotherSite_GivesNothingOfThisOne()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        foreach (var path in new[] { "orders", "batches", "tasks", "germination?by=crop", "germination?by=house" })
        {
            Assert.Empty((await client.GetJsonAsync($"/api/v1/{path}")).Items());
        }

        var own = nursery.At.Rows.Count();
        Assert.Equal(4, (await client.GetJsonAsync("/api/v1/benches")).Items().Count);
        Assert.Equal(3, (await client.GetJsonAsync("/api/v1/heat-zones")).Items().Count);
        Assert.Equal(1 + 2 + 4 + 3, own);
        var demo = (await server.Client.GetJsonAsync("/api/v1/batches")).Items()[0];
        (await (await client.GetAsync($"/api/v1/batches/{demo.Text("id")}")).ProblemAsync(404, "NotFound")).Error("id");
        using var paper = await client.GetAsync("/api/v1/papers/bench-tags.pdf?house=H99");
        Assert.Equal("H1, H2", (await paper.ProblemAsync(422)).Error("house").Text("allowed"));
    }

    [Fact]
    public async Task EveryWrite_NamingAnotherSitesRows_IsRefusedAndStoresNothing()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        var batch = (await server.Client.GetJsonAsync("/api/v1/batches")).Items().First(item => item.Text("stage") != "planned");
        var line = (await server.Client.GetJsonAsync("/api/v1/orders")).Items()[0];
        var task = (await server.Client.GetJsonAsync("/api/v1/tasks")).Items()[0];
        var today = Wire.Iso(nursery.Today);
        var before = await server.RowsAsync();

        await (await client.PostJsonAsync($"/api/v1/batches/{batch.Text("id")}/sow", new { entryId = Guid.CreateVersion7(), on = today }))
            .ProblemAsync(404, "NotFound");
        (await (await client.PostJsonAsync("/api/v1/reservations", new
        {
            traySetCode = batch.Text("traySetCode"),
            benchCode = "W1",
            trays = 1,
            from = today,
            to = Wire.Iso(nursery.Today.PlusDays(1)),
        })).ProblemAsync(422)).Error("traySetCode");
        (await (await client.PostJsonAsync("/api/v1/batches/from-orders", new { orderLineIds = new[] { line.Text("id") } }))
            .ProblemAsync(422)).Error("orderLineIds");
        (await (await client.PostJsonAsync("/api/v1/batches", new
        {
            varietyCode = line.Text("varietyCode"),
            trays = 1,
            cellsPerTray = 72,
            seedsPerCell = 1,
            sowOn = today,
            allocations = new[] { new { orderLineId = line.Text("id"), plants = 1 } },
        })).ProblemAsync(422)).Error("allocations.orderLineId");
        var entry = $"\"id\":\"{Guid.CreateVersion7()}\",\"happenedAt\":\"{today}T12:00:00Z\"";
        foreach (var content in new[]
        {
            $"\"kind\":\"done\",\"taskId\":\"{task.Text("id")}\"",
            $"\"kind\":\"loss\",\"batchId\":\"{batch.Text("id")}\",\"plants\":1,\"cause\":\"mice\"",
            $"\"kind\":\"moved\",\"traySetCode\":\"{batch.Text("traySetCode")}\",\"trays\":1,\"benchCode\":\"W1\"",
        })
        {
            using var response = await client.PostAsync("/api/v1/ledger", Wire.Json($"{{\"entries\":[{{{entry},{content}}}]}}"));
            var result = (await response.JsonAsync(System.Net.HttpStatusCode.OK)).GetProperty("results")[0];
            Assert.Equal("NotFound", result.GetProperty("problem").Text("code"));
        }

        Assert.Equal(before, await server.RowsAsync());
    }

    private static string With(string path, string query) => path + (path.Contains('?', StringComparison.Ordinal) ? "&" : "?") + query;
}
