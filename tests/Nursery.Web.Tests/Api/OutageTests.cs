using System.Net.Http.Json;
using System.Text.Json;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

/// <summary>Benches out of use by another system, on 2 March 2026.</summary>
public sealed class OutageTests(ApiServer server) : IClassFixture<ApiServer>
{
    private static readonly Uri Outages = new("/api/v1/outages", UriKind.Relative);

    [Fact]
    public async Task Outage_BenchTakenAndGivenBack_RefusesReservationsMeanwhile()
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        using var _ = client;
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        var reservation = new { traySetCode = batch.TraySetCode, benchCode = "W1", trays = 4, from = "2026-03-02", to = "2026-03-20" };

        using var taken = await client.PostAsJsonAsync(Outages, new { benchCode = "W1", from = "2026-03-05", to = "2026-03-12", why = "leg broken" });
        Assert.Equal(201, (int)taken.StatusCode);
        using var outage = JsonDocument.Parse(await taken.Content.ReadAsStringAsync());
        Assert.Equal("W1", outage.RootElement.GetProperty("benchCode").GetString());
        Assert.Equal(0, outage.RootElement.GetProperty("traySets").GetArrayLength());

        using var refused = await client.PostAsJsonAsync(new Uri("/api/v1/reservations", UriKind.Relative), reservation);
        using var problem = JsonDocument.Parse(await refused.Content.ReadAsStringAsync());
        Assert.Equal(409, (int)refused.StatusCode);
        Assert.Equal("application/problem+json", refused.Content.Headers.ContentType!.MediaType);
        Assert.Equal("urn:nursery:not-in-use", problem.RootElement.GetProperty("type").GetString());
        Assert.Equal(
            ("W1", "2026-03-12", "leg broken"),
            (problem.RootElement.GetProperty("bench").GetString(), problem.RootElement.GetProperty("until").GetString(), problem.RootElement.GetProperty("why").GetString()));

        var id = outage.RootElement.GetProperty("id").GetString();
        using var given = await client.PostAsJsonAsync(new Uri($"/api/v1/outages/{id}/give-back", UriKind.Relative), new { on = "2026-03-06" });
        Assert.Contains("\"to\":\"2026-03-06\"", await given.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        using var gone = await client.PostAsync(new Uri($"/api/v1/outages/{id}/give-back", UriKind.Relative), null);
        Assert.Equal(200, (int)gone.StatusCode);
        using var list = JsonDocument.Parse(await client.GetStringAsync(Outages));
        Assert.Equal(0, list.RootElement.GetProperty("items").GetArrayLength());
        using var held = await client.PostAsJsonAsync(new Uri("/api/v1/reservations", UriKind.Relative), reservation);
        Assert.Equal(201, (int)held.StatusCode);
        using var unknown = await client.PostAsync(new Uri($"/api/v1/outages/{id}/give-back", UriKind.Relative), null);
        Assert.Equal(404, (int)unknown.StatusCode);
    }
}
