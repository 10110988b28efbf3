using Microsoft.EntityFrameworkCore;
using Nursery.Application.Reservations;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Reservations;

public sealed class ReserveSpacesRaceTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const int Clients = 100;
    private const int Rounds = 20;

    /// <summary>A bare race on the exclusion constraint deadlocks; here nobody may see anything but a winner and refusals.</summary>
    [Fact]
    public async Task HandleAsync_HundredClientsOneSpace_OneWinsEachRound()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        for (var round = 0; round < Rounds; round++)
        {
            var from = nursery.Today.PlusDays(round * 10);
            var request = new ReserveSpacesRequest(batch.TraySetCode, "W1", 3, 5, from, from.PlusDays(10));
            using var start = new SemaphoreSlim(0, Clients);
            var clients = Enumerable.Range(0, Clients).Select(async _ =>
            {
                await start.WaitAsync();
                return await Record.ExceptionAsync(() => nursery.Get<ReserveSpaces>().HandleAsync(request, nursery.HeadGrower));
            }).ToList();
            start.Release(Clients);
            var outcomes = await Task.WhenAll(clients);

            Assert.DoesNotContain(outcomes, failure => failure is not null and not SpaceTaken);
            Assert.Single(outcomes, failure => failure is null);
            Assert.Equal(Clients - 1, outcomes.Count(failure => failure is SpaceTaken));
        }

        await using var open = await nursery.DatabaseAsync();
        Assert.Equal(Rounds, await open.Reservations.CountAsync(row => row.SiteId == nursery.At.Site.Id));
    }

    [Fact]
    public async Task HandleAsync_HundredClientsNoSpaceNamed_FillTheBenchAndNoMore()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        var request = new ReserveSpacesRequest(
            batch.TraySetCode, "W1", 3, null, nursery.Today, nursery.Today.PlusDays(10));
        var outcomes = await Task.WhenAll(Enumerable.Range(0, Clients).Select(
            _ => Record.ExceptionAsync(() => nursery.Get<ReserveSpaces>().HandleAsync(request, nursery.HeadGrower))));

        Assert.Equal(13, outcomes.Count(failure => failure is null));
        Assert.Equal(Clients - 13, outcomes.Count(failure => failure is BenchIsFull));
    }
}
