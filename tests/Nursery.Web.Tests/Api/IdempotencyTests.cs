using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Nursery.Application.Access;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class IdempotencyTests(ApiServer server)
{
    [Fact]
    public async Task Post_SameKeySameRequest_GivesTheSameAnswerAndDoesItOnce()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        var body = Batch(nursery, 3);
        using var first = await SendAsync(client, "/api/v1/batches", "key 1", body);
        using var second = await SendAsync(client, "/api/v1/batches", "key 1", body);
        Assert.Equal(HttpStatusCode.Created, second.StatusCode);
        Assert.Equal(await first.Content.ReadAsStringAsync(), await second.Content.ReadAsStringAsync());
        Assert.Equal(first.Headers.Location, second.Headers.Location);
        Assert.NotNull(second.Headers.Location);
        Assert.False(first.Headers.Contains("Idempotent-Replay"));
        Assert.Equal("true", second.Headers.GetValues("Idempotent-Replay").Single());
        Assert.Single((await client.GetJsonAsync("/api/v1/batches")).Items());
    }

    [Fact]
    public async Task Post_SameKeyOtherRequest_Is422AndStoresNothing()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        using var first = await SendAsync(client, "/api/v1/batches", "key 2", Batch(nursery, 3));
        var before = await server.RowsAsync();
        using var otherBody = await SendAsync(client, "/api/v1/batches", "key 2", Batch(nursery, 4));
        Assert.Equal("key 2", (await otherBody.ProblemAsync(422, "IdempotencyKeyReused")).Error("Idempotency-Key").Text("value"));
        using var otherPath = await SendAsync(client, "/api/v1/batches/from-orders", "key 2", Batch(nursery, 3));
        await otherPath.ProblemAsync(422, "IdempotencyKeyReused");
        Assert.Equal(before, await server.RowsAsync());
    }

    [Fact]
    public async Task Post_SameKeyOfAnotherCaller_IsAnotherRequest()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        var (_, key) = await server.Services.GetRequiredService<IssueApiKey>().HandleAsync(
            "twin", [Domain.People.Right.Plan], nursery.Administrator);
        using var twin = server.ClientOf(key);
        foreach (var caller in new[] { client, twin })
        {
            using var response = await SendAsync(caller, "/api/v1/batches", "key 3", Batch(nursery, 3));
            await response.JsonAsync(HttpStatusCode.Created);
            Assert.False(response.Headers.Contains("Idempotent-Replay"));
        }

        Assert.Equal(2, (await client.GetJsonAsync("/api/v1/batches")).Items().Count);
    }

    [Fact]
    public async Task Post_RefusedFirst_LeavesTheKeyFree()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        using var refused = await SendAsync(client, "/api/v1/batches", "key 4", Batch(nursery, 0));
        await refused.ProblemAsync(422, "InvalidFields");
        using var mended = await SendAsync(client, "/api/v1/batches", "key 4", Batch(nursery, 1));
        await mended.JsonAsync(HttpStatusCode.Created);
    }

    [Fact]
    public async Task Post_TwentyAtOnceWithOneKey_DoItOnce()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        var answers = await Task.WhenAll(Enumerable.Range(0, 20)
            .Select(_ => SendAsync(client, "/api/v1/batches", "key 5", Batch(nursery, 2))));
        Assert.All(answers, answer => Assert.True(
            answer.StatusCode is HttpStatusCode.Created or HttpStatusCode.Conflict, $"{(int)answer.StatusCode}"));
        foreach (var waiting in answers.Where(answer => answer.StatusCode == HttpStatusCode.Conflict))
        {
            await waiting.ProblemAsync(409, "RequestUnderWay");
        }

        Assert.Single((await client.GetJsonAsync("/api/v1/batches")).Items());
    }

    [Fact]
    public async Task BeginAsync_UnderWayThenADayLater_IsRefusedThenFree()
    {
        var (nursery, _) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        var answers = nursery.Get<RememberAnswer>();
        Assert.Null(await answers.BeginAsync("key 6", [1], nursery.HeadGrower));
        await Assert.ThrowsAsync<Domain.Refusals.RequestUnderWay>(() => answers.BeginAsync("key 6", [1], nursery.HeadGrower));
        await answers.KeepAsync("key 6", new RememberedAnswer(200, "{}"), nursery.HeadGrower);
        Assert.Equal(new RememberedAnswer(200, "{}"), await answers.BeginAsync("key 6", [1], nursery.HeadGrower));
        await using (var database = await nursery.DatabaseAsync())
        {
            var row = Assert.Single(database.IdempotentRequests, row => row.Key == "key 6");
            database.Remove(row);
            database.Add(new Data.Web.IdempotentRequest
            {
                SiteId = row.SiteId,
                ActorId = row.ActorId,
                Key = row.Key,
                RequestHash = row.RequestHash,
                At = row.At - NodaTime.Duration.FromHours(25),
            });
            await database.SaveChangesAsync();
        }

        Assert.Null(await answers.BeginAsync("key 6", [2], nursery.HeadGrower));
    }

    [Theory]
    [InlineData("")]
    [InlineData("Schlüssel")]
    [InlineData(201)]
    public async Task Post_KeyEmptyTooLongOrNotAscii_Is400(object key)
    {
        var text = key as string ?? new string('k', (int)key);
        using var handler = new SocketsHttpHandler { RequestHeaderEncodingSelector = (_, _) => System.Text.Encoding.UTF8 };
        using var client = new HttpClient(handler) { BaseAddress = server.Address };
        client.DefaultRequestHeaders.Authorization = new("Bearer", server.Demo.ApiKey);
        using var response = await SendAsync(client, "/api/v1/batches", text, "{}");
        (await response.ProblemAsync(400, "Malformed")).Error("Idempotency-Key");
    }

    private static string Batch(TestNursery nursery, int trays) => System.Text.Json.JsonSerializer.Serialize(new
    {
        varietyCode = nursery.Lettuce.Code,
        trays,
        cellsPerTray = 128,
        seedsPerCell = 1,
        sowOn = Wire.Iso(nursery.Today),
    });

    private static Task<HttpResponseMessage> SendAsync(HttpClient client, string path, string key, string body)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = Wire.Json(body) };
        request.Headers.TryAddWithoutValidation("Idempotency-Key", key);
        return client.SendAsync(request);
    }
}
