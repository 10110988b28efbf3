using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>A plan by another system: begun, watched, accepted.</summary>
public sealed class PlanTests(ApiServer server) : IClassFixture<ApiServer>
{
    private static readonly Uri Plans = new("/api/v1/plans", UriKind.Relative);

    [Fact]
    public async Task Plan_OwnSeasonOfTheDemo_IsComputedAndAccepted()
    {
        using var begun = await server.Client.PostAsJsonAsync(Plans, new { seasonId = "own", iterations = 200, seed = 3 });
        Assert.Equal(202, (int)begun.StatusCode);
        using var first = JsonDocument.Parse(await begun.Content.ReadAsStringAsync());
        Assert.Equal($"/api/v1/plans/{first.RootElement.GetProperty("id").GetString()}", begun.Headers.Location!.ToString());

        var run = await server.Client.EndedAsync(begun.Headers.Location);
        Assert.Equal("done", run.GetProperty("state").GetString());
        Assert.Equal(1, run.GetProperty("progress").GetDouble());
        var score = run.GetProperty("score").EnumerateObject().ToDictionary(cost => cost.Name, cost => cost.Value.GetInt64());
        Assert.Equal(run.GetProperty("bestCost").GetInt64(), score.Where(cost => cost.Key is not ("ChangedSowDay" or "ExtraMove" or "OtherHouse")).Sum(cost => cost.Value));
        Assert.Equal("open", run.GetProperty("proposal").GetString());
        var placed = run.GetProperty("plan").GetProperty("batches").GetArrayLength();
        Assert.True(placed > 0, "The demo has batches that are not sown.");

        using var accepted = await server.Client.PostAsync(new Uri($"{begun.Headers.Location}/accept", UriKind.Relative), null);
        var text = await accepted.Content.ReadAsStringAsync();
        Assert.True(accepted.IsSuccessStatusCode, text);
        using var answer = JsonDocument.Parse(text);
        Assert.Equal(placed, answer.RootElement.GetProperty("batches").GetArrayLength());

        using var twice = await server.Client.PostAsync(new Uri($"{begun.Headers.Location}/accept", UriKind.Relative), null);
        Assert.Equal(409, (int)twice.StatusCode);
        Assert.Equal("application/problem+json", twice.Content.Headers.ContentType!.MediaType);
        Assert.Contains("accepted already", await twice.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Plan_SomethingHappenedOrIsTried_IsSaidInTheAnswer()
    {
        using var benches = JsonDocument.Parse(await server.Client.GetStringAsync(new Uri("/api/v1/benches", UriKind.Relative)));
        var bench = benches.RootElement.GetProperty("items").EnumerateArray().First(row => row.GetProperty("kind").GetString() == "growing").GetProperty("code").GetString();
        using var zones = JsonDocument.Parse(await server.Client.GetStringAsync(new Uri("/api/v1/heat-zones", UriKind.Relative)));
        var zone = zones.RootElement.GetProperty("items")[0].GetProperty("code").GetString();
        var (from, to) = ("2026-03-05", "2026-03-14");

        using var begun = await server.Client.PostAsJsonAsync(Plans, new
        {
            aim = "keep",
            iterations = 100,
            changes = new object[] { new { kind = "benchOutOfUse", bench, from, to, why = "leg broken" }, new { kind = "zoneBroken", zone, from, to } },
        });
        Assert.True(begun.IsSuccessStatusCode, await begun.Content.ReadAsStringAsync());
        var kept = await server.Client.EndedAsync(begun.Headers.Location!);
        Assert.Equal(("keep", "open"), (kept.GetProperty("aim").GetString(), kept.GetProperty("proposal").GetString()));
        Assert.StartsWith($"Bench {bench} cannot be used from", kept.GetProperty("changesInWords")[0].GetString(), StringComparison.Ordinal);
        Assert.InRange(kept.GetProperty("changed").GetInt32(), 0, kept.GetProperty("notStarted").GetInt32());
        Assert.Equal(JsonValueKind.Array, kept.GetProperty("running").ValueKind);
        Assert.Equal(JsonValueKind.Array, kept.GetProperty("homeless").ValueKind);

        using var trial = await server.Client.PostAsJsonAsync(Plans, new
        {
            aim = "try",
            iterations = 50,
            changes = new object[] { new { kind = "spacesRented", use = "heat", spaces = 20, from, to }, new { kind = "prices", dayLate = 80 }, new { kind = "zoneSetpoints", zone, setpointsF = new[] { 75, 80.5 } } },
        });
        Assert.True(trial.IsSuccessStatusCode, await trial.Content.ReadAsStringAsync());
        var tried = await server.Client.EndedAsync(trial.Headers.Location!);
        Assert.Equal("triedOut", tried.GetProperty("proposal").GetString());
        using var refused = await server.Client.PostAsync(new Uri($"{trial.Headers.Location}/accept", UriKind.Relative), null);
        Assert.Equal(409, (int)refused.StatusCode);

        using var wrong = await server.Client.PostAsJsonAsync(Plans, new { aim = "keep", changes = new object[] { new { kind = "benchOutOfUse", bench = "roof", from, to } } });
        Assert.Equal(422, (int)wrong.StatusCode);
        Assert.Contains("changes[0].bench", await wrong.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        using var unread = await server.Client.PostAsJsonAsync(Plans, new { aim = "keep", changes = new object[] { new { kind = "flood" } } });
        Assert.Equal(400, (int)unread.StatusCode);
        Assert.Contains("changes[0].kind", await unread.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Plan_ProblemOfAnotherNursery_IsPlannedAndAFaultNamed()
    {
        var problem = new
        {
            start = "2026-03-02",
            days = 90,
            houses = new[] { new { id = "A" } },
            benches = new[]
            {
                new { id = "G", house = "A", use = "Heat", spaces = 10, widthIn = 60, lengthIn = 200 },
                new { id = "W", house = "A", use = "Warm", spaces = 20, widthIn = 60, lengthIn = 200 },
            },
            zones = new[] { new { id = "Z", bench = "G", firstSpace = 1, spaces = 10, setpointsF = new[] { 75, 85 } } },
            hardeningSpaces = 20,
            crops = new[] { new { id = "P", minF = 65, bestF = 85, maxF = 95, table = new[] { new { setpointF = 85, progressPerDay = 0.125 } }, warmDays = 30 } },
            batches = new[] { new { id = "B1", crop = "P", trays = 4, due = "2026-05-01" } },
        };
        using var begun = await server.Client.PostAsJsonAsync(Plans, new { problem, iterations = 50 });
        Assert.Equal(202, (int)begun.StatusCode);
        var run = await server.Client.EndedAsync(begun.Headers.Location!);
        var batch = run.GetProperty("plan").GetProperty("batches")[0];
        Assert.Equal(85, batch.GetProperty("setpointF").GetDouble());
        Assert.InRange(DateOnly.Parse(batch.GetProperty("readyOn").GetString()!, CultureInfo.InvariantCulture), new DateOnly(2026, 4, 28), new DateOnly(2026, 5, 5));

        using var wrong = await server.Client.PostAsJsonAsync(Plans, new { problem = new { start = "soon" } });
        Assert.Equal(400, (int)wrong.StatusCode);
        Assert.Contains("soon", await wrong.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
