using Nursery.Application.Papers;
using Nursery.Application.Plans;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Nursery.Testing.Papers;
using Xunit;

namespace Nursery.Application.Tests.Papers;

/// <summary>On Monday, 2 March 2026; zones of 80, 70 and 60 °F.</summary>
public sealed class PlanTimeLineTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Print_PlanInForce_HasEveryBatchWhereItIsReservedAndThoseWithoutAPlace()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var sown = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await nursery.ReserveAsync(sown, "G1", 3, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.SowAsync(sown);
        var homeless = await nursery.PlanAsync(nursery.Lettuce, trays: 2, inDays: 4);

        using var read = Read(await nursery.Get<PrintPlanTimeLine>().HandleAsync(null, null, nursery.Staff));

        Assert.Contains("Planinforce:heatzones", read.Letters, StringComparison.Ordinal);
        Assert.Contains(sown.Code + "3–10", read.Letters, StringComparison.Ordinal);
        Assert.Contains("80°F2Mar–15Mar", read.Letters, StringComparison.Ordinal);
        Assert.Contains("8of24", read.Letters, StringComparison.Ordinal);
        Assert.Contains($"{homeless.Code}Lettuce", read.Letters, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Print_Proposal_IsThatOfTheScreenAndSaysItIsNotInForce()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batches = new[] { await nursery.PlanAsync(nursery.Pepper, trays: 8, inDays: 3), await nursery.PlanAsync(nursery.Lettuce, trays: 6, inDays: 5) };
        await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<PrintPlanTimeLine>().HandleAsync(PlanToPrint.Proposal, null, nursery.Staff));
        var run = await nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Iterations: 100), nursery.HeadGrower);
        await nursery.Get<RunPlan>().HandleAsync(run.Id);
        var (_, proposal) = await nursery.Get<ShowPlan>().LatestAsync(nursery.Staff);

        using var read = Read(await nursery.Get<PrintPlanTimeLine>().HandleAsync(PlanToPrint.Proposal, SheetSize.Letter, nursery.Staff));

        Assert.All(read.Pages, page => Assert.Contains("Proposal,notinforce", Readback.LettersOf(page), StringComparison.Ordinal));
        Assert.All(batches, batch => Assert.Contains(batch.Code, read.Letters, StringComparison.Ordinal));
        Assert.All(
            proposal!.Then.SelectMany(line => line.Stays),
            stay => Assert.Contains($"{stay.Code}{new Domain.SpaceRun(stay.FirstSpace, stay.Spaces)}", read.Letters, StringComparison.Ordinal));
        var heat = proposal.Loads[0].Then;
        Assert.Contains($"{heat.Weeks.Max()}of{heat.Capacity}", read.Letters, StringComparison.Ordinal);

        await nursery.Get<DropPlan>().HandleAsync(run.Id, nursery.HeadGrower);
        await Assert.ThrowsAsync<InvalidFields>(() => nursery.Get<PrintPlanTimeLine>().HandleAsync(PlanToPrint.Proposal, null, nursery.Staff));
    }

    /// <summary>The load of the season against a count by hand: on each day the spaces of every bar that covers it.</summary>
    [Fact]
    public async Task Loads_OfTheFullestDay_AreTheSumOfTheBarsOfThatDay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        for (var number = 0; number < 5; number++)
        {
            await nursery.PlanAsync(number % 2 == 0 ? nursery.Pepper : nursery.Lettuce, trays: 3 + number, inDays: 2 + number);
        }

        var run = await nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Iterations: 100), nursery.HeadGrower);
        await nursery.Get<RunPlan>().HandleAsync(run.Id);
        var (_, proposal) = await nursery.Get<ShowPlan>().LatestAsync(nursery.Staff);

        foreach (var (load, _) in proposal!.Loads.Where(load => load.Then.Kind != PlaceKind.Hardening))
        {
            var bars = proposal.Then.Where(line => line.Kind == load.Kind).SelectMany(line => line.Stays).ToList();
            Assert.Equal(load.Weeks.Max(), bars.Where(stay => stay.From <= load.Fullest && load.Fullest < stay.To).Sum(stay => stay.Spaces));
            Assert.Equal(load.Weeks.Max(), load.Places.Sum(place => place.Standing + place.Planned));
            Assert.Equal(load.Capacity, load.Places.Sum(place => place.Spaces));
        }

        var last = proposal.Then.SelectMany(line => line.Stays).Max(stay => stay.To);
        Assert.InRange(proposal.Days - (last.DayNumber - proposal.Start.DayNumber), 0, 28);
    }

    private static Readback Read(byte[] pdf) => PaperReading.Holds(pdf, PaperStock.Letter, "Printed 2 March 2026");
}
