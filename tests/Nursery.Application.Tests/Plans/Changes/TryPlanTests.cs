using NodaTime;
using Nursery.Application.Plans;
using Nursery.Application.Plans.Changes;
using Nursery.Domain.Refusals;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Plans.Changes;

/// <summary>On Monday, 2 March 2026; zones of 80, 70 and 60 °F, one warm bench of 40 spaces.</summary>
public sealed class TryPlanTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Try_EveryKindOfChange_LeavesEveryTableOfTheSeasonAsItIs()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await nursery.PlannedSeasonAsync();
        var grows = await nursery.GrowingAsync("W1", 33, 4, 30);
        await nursery.WarmBenchAsync("W2", 20);
        var before = await nursery.DumpAsync();
        var (from, to) = (nursery.Today.PlusDays(2), nursery.Today.PlusDays(20));

        var proposal = await nursery.TryAsync(
            new SlippedBatch(grows.Code, 3), new SlippedBatch(planned[0].Code, 2), new BenchOut("W1", from, to), new ZoneOut("Z60", from, to),
            new AddedOrder(nursery.Pepper.Code, 200, nursery.Today.PlusDays(80)), new CancelledBatch(planned[1].Code), new TriedSetpoints("Z70", [75, 78]),
            new RentedSpaces(PlaceKind.Warm, 30, from, to.PlusDays(60)), new RentedSpaces(PlaceKind.Heat, 10, from, to), new MoreHardening(10),
            new TriedPrices(DayLate: 100, Split: 50));

        Assert.Equal(before, await nursery.DumpAsync());
        Assert.Equal((ProposalState.TriedOut, 11), (proposal.Run.Proposal, proposal.Run.ChangesInWords.Count));
        Assert.NotEmpty(proposal.Run.Running);
        var refusal = await Assert.ThrowsAsync<NoOpenProposal>(() => nursery.AcceptAsync(proposal));
        Assert.Contains("tried out on a copy", refusal.Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<NoOpenProposal>(() => nursery.Get<DropPlan>().HandleAsync(proposal.Run.Id, nursery.HeadGrower));
        Assert.Equal(before, await nursery.DumpAsync());
    }

    [Fact]
    public async Task Try_OrderAdded_ABatchOfSoManyTraysGetsAPlaceBesideTheOthers()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlannedSeasonAsync();
        var wanted = nursery.Today.PlusDays(90);

        var proposal = await nursery.TryAsync(new AddedOrder(nursery.Tomato.Code, 300, wanted));

        Assert.Equal([$"300 plants of {nursery.Tomato.Code} more are ordered for 31 May 2026"], proposal.Run.ChangesInWords);
        var added = proposal.Comparison.Batches.Single(change => change.Code == "NEW-1");
        Assert.True(added.Gains);
        Assert.InRange(added.Trays, 5, 8);
        Assert.Equal(0, added.LateThen);
        Assert.InRange(added.Then!.ReadyOn, wanted.PlusDays(-15).ToDateOnly(), wanted.ToDateOnly());
        Assert.Equal("Tomato", proposal.Names["NEW-1"].Split(' ')[0]);
        Assert.Equal(5, proposal.Comparison.Batches.Count);
        Assert.Equal(4, proposal.Run.NotStarted);
    }

    [Fact]
    public async Task Try_BatchCancelled_ItHasNoPlaceThenAndItsSpacesAreFree()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await nursery.PlannedSeasonAsync();

        var proposal = await nursery.TryAsync(new CancelledBatch(planned[0].Code));

        Assert.True(proposal.Comparison.Batches.Single(change => change.Code == planned[0].Code).Loses);
        Assert.DoesNotContain(proposal.Then.SelectMany(line => line.Stays), stay => stay.Code == planned[0].Code);
        Assert.Contains(proposal.Today.SelectMany(line => line.Stays), stay => stay.Code == planned[0].Code);
        Assert.Equal(3, proposal.Run.NotStarted);
    }

    [Fact]
    public async Task Try_SownBatchCancelled_ItsTraysAreGone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var grows = await nursery.GrowingAsync("W1", 1, 40, 90);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        Assert.NotEmpty((await nursery.ProposeAsync(PlanAim.Whole)).Run.Unplaced);

        var proposal = await nursery.TryAsync(new CancelledBatch(grows.Code));

        Assert.Empty(proposal.Run.Unplaced);
        Assert.Equal(["W1"], proposal.Comparison.Batches.Single(change => change.Code == batch.Code).Then!.Benches);
    }

    [Fact]
    public async Task Try_SpacesRented_TakeWhatHadNoPlace()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.GrowingAsync("W1", 1, 40, 90);
        await nursery.PlanAsync(nursery.Pepper, trays: 4);

        var proposal = await nursery.TryAsync(new RentedSpaces(PlaceKind.Warm, 4, nursery.Today, nursery.Today.PlusDays(120)));

        Assert.Empty(proposal.Run.Unplaced);
        Assert.Equal(["Rented 1"], Assert.Single(proposal.Comparison.Batches).Then!.Benches);
        var (then, today) = proposal.Loads.Single(load => load.Then.Kind == PlaceKind.Warm);
        Assert.Equal((44, 40), (then.Capacity, today.Capacity));
    }

    [Fact]
    public async Task Try_HeatRented_IsAZoneOfItsOwn()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 4);
        PlanEvent[] broken = [.. new[] { "Z80", "Z70", "Z60" }.Select(zone => new ZoneOut(zone, nursery.Today, nursery.Today.PlusDays(100)))];
        Assert.NotEmpty((await nursery.TryAsync(broken)).Run.Unplaced);

        var proposal = await nursery.TryAsync([.. broken, new RentedSpaces(PlaceKind.Heat, 4, nursery.Today, nursery.Today.PlusDays(100))]);

        Assert.Equal(["Rented 4"], Assert.Single(proposal.Comparison.Batches).Then!.Zones);
    }

    [Fact]
    public async Task Try_ZoneSetpoints_OnlyThoseAreUsed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlanAsync(nursery.Pepper, trays: 4);

        var proposal = await nursery.TryAsync(
            new TriedSetpoints("Z80", [77.5]), new TriedSetpoints("Z70", [77.5]), new TriedSetpoints("Z60", [77.5]));

        Assert.Equal(77.5, Assert.Single(proposal.Comparison.Batches).Then!.SetpointF);
        Assert.Equal("Heat zone Z80 may be set to 77.5 °F and to nothing else", proposal.Run.ChangesInWords[0]);
    }

    [Fact]
    public async Task Try_OtherPrices_BothPlansAreCountedAtThem()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlannedSeasonAsync();
        var usual = await nursery.TryAsync(new TriedPrices(MovedPlace: 300));

        var proposal = await nursery.TryAsync(new TriedPrices(HeatTenDegrees: 10));

        var (heat, dear) = (Heat(usual), Heat(proposal));
        Assert.True(heat.Today > 0);
        Assert.InRange(dear.Today, 9.5 * heat.Today, 10.5 * heat.Today);
        Assert.True(dear.Then <= dear.Today);
        Assert.Equal(["Other prices: a heated space a day ten °F 10¢"], proposal.Run.ChangesInWords);

        static (long Today, long Then) Heat(Proposal proposal)
        {
            var (_, today, then) = proposal.Comparison.Costs.Single(cost => cost.Name == "HeatedBenchDay");
            return (today, then);
        }
    }

    [Fact]
    public async Task Try_SameStepsAndSeed_GiveTheSamePlan()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await nursery.PlannedSeasonAsync();
        PlanEvent[] changes = [new CancelledBatch(planned[0].Code), new AddedOrder(nursery.Pepper.Code, 400, nursery.Today.PlusDays(80))];

        var (one, other) = (await nursery.TryAsync(changes), await nursery.TryAsync(changes));

        Assert.Equal(Planning.PlanningJson.Write(one.Run.Plan!), Planning.PlanningJson.Write(other.Run.Plan!));
    }
}
