using System.Net;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Web.Tests.Api;

[Collection(ApiCollection.Name)]
public sealed class ConcurrentReservationTests(ApiServer server)
{
    private const int Clients = 100;

    [Theory]
    [InlineData(1)]
    [InlineData(9)]
    public async Task Reserve_HundredAtOnceForOneSpace_OneWinsAndTheOthersHearWhoHoldsIt(int firstSpace)
    {
        var (nursery, client) = await server.OpenOtherSiteAsync();
        await using var closing = nursery;
        var today = Wire.Iso(nursery.Today);
        var traySets = new List<string>();
        for (var number = 0; number < Clients; number++)
        {
            var batch = await (await client.PostJsonAsync(
                "/api/v1/batches", new { varietyCode = nursery.Tomato.Code, trays = 2, cellsPerTray = 72, seedsPerCell = 1, sowOn = today }))
                .JsonAsync(HttpStatusCode.Created);
            traySets.Add(batch.Text("traySetCode"));
        }

        var answers = await Task.WhenAll(traySets.Select(async traySetCode => (traySetCode, answer: await client.PostJsonAsync(
            "/api/v1/reservations",
            new { traySetCode, benchCode = "W1", trays = 2, firstSpace, from = today, to = Wire.Iso(nursery.Today.PlusDays(20)) }))));
        var winner = Assert.Single(answers, pair => pair.answer.StatusCode == HttpStatusCode.Created);
        foreach (var (_, answer) in answers.Where(pair => pair != winner))
        {
            Assert.Equal(winner.traySetCode, (await answer.ProblemAsync(409, "SpaceTaken")).Text("heldBy"));
        }
    }
}
