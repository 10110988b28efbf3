using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.HeatZones;
using Nursery.Application.Plans;
using Nursery.Application.Reservations;
using Nursery.Application.Runs;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Planning;
using Nursery.Planning.Validation;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;
using PlannedBatch = Nursery.Application.Batches.PlannedBatch;

namespace Nursery.Application.Tests.Plans;

/// <summary>On Monday, 2 March 2026; zones of 80, 70 and 60 °F.</summary>
public sealed class PlanRunTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly PlanRequest Short = new(Iterations: 300);

    [Fact]
    public async Task Run_OwnSeason_GivesAPlanThatTheValidatorPassesAndTouchesNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanSomeAsync(nursery);

        var proposal = await ProposeAsync(nursery);

        Assert.Equal((RunState.Done, 1.0, ProposalState.Open), (proposal.Run.State, proposal.Run.Progress, proposal.Run.Proposal));
        Assert.Empty(proposal.Run.Unplaced);
        Assert.Equal(4, proposal.Run.Plan!.Batches.Count);
        Assert.Empty(PlanValidator.Check(Planning.Checks.ProblemCheck.Of(await ProblemAsync(nursery, proposal)).Usable, proposal.Run.Plan!));
        Assert.All(proposal.Run.Plan!.Batches.Where(batch => batch.Id.StartsWith("PE", StringComparison.Ordinal)), batch => Assert.InRange(batch.SetpointF, 65, 95));
        Assert.Equal(4, proposal.Comparison.Batches.Count(change => change.Gains));
        Assert.Equal(proposal.Run.BestCost, proposal.Run.Plan!.Score.PositionedCost);
        Assert.Empty(await PlacesAsync(nursery));
    }

    [Fact]
    public async Task Run_SameSeedAndIterations_GivesTheSamePlan()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanSomeAsync(nursery);

        var (one, other) = (await ProposeAsync(nursery), await ProposeAsync(nursery));

        Assert.Equal(PlanningJson.Write(one.Run.Plan!), PlanningJson.Write(other.Run.Plan!));
    }

    [Fact]
    public async Task Run_SownAndSharedTrays_StayWhereTheyAre()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var sown = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await nursery.ReserveAsync(sown, "G1", 3, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.SowAsync(sown);
        await nursery.PlanAsync(nursery.Pepper, trays: 8);

        var proposal = await ProposeAsync(nursery);

        var stay = Assert.Single((await ProblemAsync(nursery, proposal)).Frozen!);
        Assert.Equal(("Z80", 3, 8, 80.0, 80.0), (stay.Where, stay.FirstSpace, stay.Spaces, stay.MinF, stay.MaxF));
        Assert.Single(proposal.Run.Plan!.Batches);
        Assert.Empty(PlanValidator.Check(await ProblemAsync(nursery, proposal), proposal.Run.Plan!));
    }

    [Fact]
    public async Task Accept_All_WritesPlacesDaysAndSetpointsInTheLedger()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await PlanSomeAsync(nursery);
        var proposal = await ProposeAsync(nursery);

        var accepted = await nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id), nursery.HeadGrower);

        Assert.Equal(4, accepted.Batches.Count);
        Assert.Empty(accepted.Notes);
        await using var rows = await nursery.DatabaseAsync();
        foreach (var placed in proposal.Run.Plan!.Batches)
        {
            var batch = await rows.Batches.SingleAsync(row => row.Code == placed.Id && row.SiteId == nursery.At.Site.Id);
            Assert.Equal((placed.SowOn, placed.ReadyOn.AddDays(-1)), (batch.SowOn.ToDateOnly(), batch.ReadyOn.ToDateOnly()));
            var days = placed.MoveOffOn.DayNumber - placed.SowOn.DayNumber;
            Assert.InRange(days, 3, 30);
            var ledger = await rows.Ledger.Where(entry => entry.BatchId == batch.Id && entry.Kind == LedgerKind.Replanned).ToListAsync();
            var change = Assert.IsType<Replanned>(Assert.Single(ledger).Value);
            Assert.Equal(3, change.After.Count);
        }

        Assert.Equal(3 * planned.Count, (await PlacesAsync(nursery)).Count);

        // What the plan says of a zone is what the zone is set to now, day by day.
        var zones = await rows.HeatZones.Where(zone => zone.SiteId == nursery.At.Site.Id).ToListAsync();
        var spans = await rows.ZoneSetpoints.Where(span => span.SiteId == nursery.At.Site.Id).ToListAsync();
        foreach (var placed in proposal.Run.Plan!.Batches)
        {
            var program = new Domain.HeatZones.ZoneProgram(zones.Single(zone => zone.Code == placed.Heat[0].Zone), spans);
            var setpoint = Assert.Single(program.Over(LocalDate.FromDateOnly(placed.SowOn), LocalDate.FromDateOnly(placed.MoveOffOn)));
            Assert.Equal(placed.SetpointF, (double)new Agronomy.Temperature(setpoint).Fahrenheit, 0.06);
        }

        Assert.Equal(ProposalState.Accepted, (await nursery.Get<ShowPlan>().HandleAsync(proposal.Run.Id, nursery.Manager)).Proposal);
        await Assert.ThrowsAsync<NoOpenProposal>(() => nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id), nursery.HeadGrower));
    }

    [Fact]
    public async Task Accept_ChosenBatch_LeavesTheOthersAlone()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await PlanSomeAsync(nursery);
        var proposal = await ProposeAsync(nursery);

        await nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id, [planned[1].Code]), nursery.HeadGrower);

        Assert.Equal([planned[1].TraySetCode], (await PlacesAsync(nursery)).Select(place => place.Set).Distinct());
        await using var rows = await nursery.DatabaseAsync();
        Assert.Equal(planned[0].SowOn, (await rows.Batches.SingleAsync(row => row.Code == planned[0].Code && row.SiteId == nursery.At.Site.Id)).SowOn);
    }

    [Fact]
    public async Task Accept_UnknownBatch_IsRefusedByName()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanSomeAsync(nursery);
        var proposal = await ProposeAsync(nursery);

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() =>
            nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id, ["XX-1"]), nursery.HeadGrower));

        Assert.Contains("XX-1", refusal.Errors[0].Value, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Accept_GroundMoved_IsRefusedWithEveryReasonAndNothingIsWritten()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await PlanSomeAsync(nursery);
        var proposal = await ProposeAsync(nursery);
        await nursery.SowAsync(planned[0]);
        await nursery.ReserveAsync(planned[1], "C1", 1, nursery.Today, nursery.Today.PlusDays(20));
        var before = await nursery.LedgerCountAsync();

        var refusal = await Assert.ThrowsAsync<PlanGroundMoved>(() =>
            nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id), nursery.HeadGrower));

        Assert.Contains(refusal.Reasons, reason => reason.StartsWith($"{planned[0].Code} is sown", StringComparison.Ordinal));
        Assert.Contains(refusal.Reasons, reason => reason.StartsWith($"{planned[1].Code} was given other spaces", StringComparison.Ordinal));
        Assert.Equal(before, await nursery.LedgerCountAsync());
        Assert.Equal(ProposalState.Open, (await nursery.Get<ShowPlan>().HandleAsync(proposal.Run.Id, nursery.Manager)).Proposal);
    }

    [Fact]
    public async Task Accept_SpacesTakenByANewBatch_SaysByWhomAndUntilWhen()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanSomeAsync(nursery);
        var proposal = await ProposeAsync(nursery);
        var late = await nursery.PlanAsync(nursery.Tomato, trays: 40);
        await nursery.ReserveAsync(late, "W1", 1, nursery.Today, nursery.Today.PlusDays(300));

        var refusal = await Assert.ThrowsAsync<PlanGroundMoved>(() =>
            nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id), nursery.HeadGrower));

        Assert.Contains(refusal.Reasons, reason => reason.Contains($"of bench W1: {late.TraySetCode} holds spaces there until", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Accept_ZoneOfTraysThatNeedOtherHeat_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await nursery.PlanAsync(nursery.Pepper, trays: 2, inDays: 7);
        var proposal = await ProposeAsync(nursery);
        var zone = Assert.Single(proposal.Run.Plan!.Batches).Heat[0].Zone;

        // Someone sets the zone cooler, for good, and lays lettuce there, which does not stand what pepper wants.
        await nursery.Get<SetSetpoint>().HandleAsync(new(zone, TestCrops.Celsius(70), nursery.Today, null), nursery.HeadGrower);
        var lettuce = await nursery.PlanAsync(nursery.Lettuce, trays: 1);
        var spaces = nursery.At.Zones.Single(row => row.Code == zone).Spaces;
        await nursery.ReserveAsync(lettuce, "G1", spaces.Last, nursery.Today, nursery.Today.PlusDays(60));

        var refusal = await Assert.ThrowsAsync<PlanGroundMoved>(() => nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id), nursery.HeadGrower));

        Assert.Contains(refusal.Reasons, reason => reason.Contains(zone, StringComparison.Ordinal) && reason.Contains(lettuce.TraySetCode, StringComparison.Ordinal));
        Assert.DoesNotContain(await PlacesAsync(nursery), place => place.Set == planned.TraySetCode);
    }

    [Fact]
    public async Task Accept_AfterFirstFit_MovesWhatStandsInThePlanOfToday()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanSomeAsync(nursery);
        await nursery.Get<PlaceByFirstFit>().HandleAsync(nursery.HeadGrower);
        var proposal = await ProposeAsync(nursery);
        Assert.All(proposal.Comparison.Batches, change => Assert.NotNull(change.Today));

        await nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id), nursery.HeadGrower);

        var again = await ProposeAsync(nursery);
        Assert.DoesNotContain(again.Comparison.Batches, change => change.SowDay || change.Zone || change.Bench);
        Assert.All(again.Comparison.Batches, change => Assert.NotNull(change.Today));
    }

    [Fact]
    public async Task Drop_Proposal_CannotBeAcceptedAnyMore()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanSomeAsync(nursery);
        var proposal = await ProposeAsync(nursery);

        await nursery.Get<DropPlan>().HandleAsync(proposal.Run.Id, nursery.HeadGrower);

        Assert.Equal(ProposalState.Dropped, (await nursery.Get<ShowPlan>().HandleAsync(proposal.Run.Id, nursery.Manager)).Proposal);
        var refusal = await Assert.ThrowsAsync<NoOpenProposal>(() => nursery.Get<AcceptPlan>().HandleAsync(new(proposal.Run.Id), nursery.HeadGrower));
        Assert.Contains("dropped", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stop_MidWay_KeepsTheBestPlanSoFar()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanSomeAsync(nursery);
        var run = await nursery.Get<StartPlan>().HandleAsync(new PlanRequest(Seconds: 600), nursery.HeadGrower);
        var work = nursery.Get<RunPlan>().HandleAsync(run.Id);
        while (await nursery.Get<ShowPlan>().HandleAsync(run.Id, nursery.Manager) is { BestCost: null })
        {
            await Task.Delay(50);
        }

        await nursery.Get<StopRun>().HandleAsync(run.Id, RunKind.Plan, nursery.HeadGrower);
        await work.WaitAsync(TimeSpan.FromSeconds(20));

        var seen = await nursery.Get<ShowPlan>().HandleAsync(run.Id, nursery.Manager);
        Assert.Equal((RunState.Stopped, ProposalState.Open), (seen.State, seen.Proposal));
        Assert.Equal(4, seen.Plan!.Batches.Count);
    }

    [Fact]
    public async Task Run_MoreThanThereIsRoomFor_SaysWhyAndWhatHelps()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        for (var number = 0; number < 8; number++)
        {
            await nursery.PlanAsync(nursery.Pepper, trays: 10, inDays: 1);
        }

        var proposal = await ProposeAsync(nursery);

        Assert.NotEmpty(proposal.Run.Unplaced);
        Assert.NotEmpty(proposal.WaysOut!.Why);
        Assert.NotEmpty(proposal.WaysOut.Ways);
    }

    [Theory]
    [InlineData(0.0, null, "seconds")]
    [InlineData(3601.0, null, "seconds")]
    [InlineData(null, -1L, "iterations")]
    [InlineData(5.0, 5L, "iterations")]
    public async Task Start_BudgetOutOfRange_IsRefusedByField(double? seconds, long? iterations, string field)
    {
        await using var nursery = await TestNursery.OpenAsync(database);

        var refusal = await Assert.ThrowsAsync<InvalidFields>(() =>
            nursery.Get<StartPlan>().HandleAsync(new PlanRequest(seconds, iterations), nursery.HeadGrower));

        Assert.Equal(field, Assert.Single(refusal.Errors).Field);
    }

    [Fact]
    public async Task Start_ProblemSent_IsPlannedAndCannotBeAccepted()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await PlanSomeAsync(nursery);
        var own = await ProposeAsync(nursery);
        var run = await nursery.Get<StartPlan>().HandleAsync(Short with { Problem = PlanningJson.Write(await ProblemAsync(nursery, own)) }, nursery.HeadGrower);
        await nursery.Get<RunPlan>().HandleAsync(run.Id);

        var seen = await nursery.Get<ShowPlan>().HandleAsync(run.Id, nursery.Manager);
        Assert.Equal(PlanningJson.Write(own.Run.Plan!), PlanningJson.Write(seen.Plan!));
        Assert.False(seen.OwnSeason);
        await Assert.ThrowsAsync<NoOpenProposal>(() => nursery.Get<AcceptPlan>().HandleAsync(new(run.Id), nursery.HeadGrower));
        await Assert.ThrowsAsync<Malformed>(() => nursery.Get<StartPlan>().HandleAsync(Short with { Problem = "{}" }, nursery.HeadGrower));
    }

    private static async Task<List<PlannedBatch>> PlanSomeAsync(TestNursery nursery) =>
    [
        await nursery.PlanAsync(nursery.Pepper, trays: 8),
        await nursery.PlanAsync(nursery.Lettuce, trays: 6, inDays: 4),
        await nursery.PlanAsync(nursery.Tomato, trays: 5, inDays: 9),
        await nursery.PlanAsync(nursery.Pepper, trays: 4, inDays: 12),
    ];

    private static async Task<Proposal> ProposeAsync(TestNursery nursery)
    {
        nursery.Clock.Advance(TimeSpan.FromSeconds(1));
        var run = await nursery.Get<StartPlan>().HandleAsync(Short, nursery.HeadGrower);
        await nursery.Get<RunPlan>().HandleAsync(run.Id);
        var (seen, proposal) = await nursery.Get<ShowPlan>().LatestAsync(nursery.Manager);
        Assert.True(proposal is not null, $"{seen!.State}: {seen.Message}");
        return proposal;
    }

    /// <summary>As the run keeps it.</summary>
    private static async Task<Planning.Problems.Problem> ProblemAsync(TestNursery nursery, Proposal proposal)
    {
        await using var rows = await nursery.DatabaseAsync();
        var id = new Domain.Id<BackgroundRun>(proposal.Run.Id);
        using var kept = System.Text.Json.JsonDocument.Parse(await rows.BackgroundRuns.Where(run => run.Id == id).Select(run => run.Result!).SingleAsync());
        return PlanningJson.ReadProblem(kept.RootElement.GetProperty("problem").GetString()!);
    }

    private static async Task<List<(string Set, string Bench)>> PlacesAsync(TestNursery nursery)
    {
        await using var rows = await nursery.DatabaseAsync();
        return [.. (await (
            from place in rows.Reservations
            join set in rows.TraySets on place.TraySetId equals set.Id
            join bench in rows.Benches on place.BenchId equals bench.Id
            where place.SiteId == nursery.At.Site.Id
            select new { Set = set.Code, Bench = bench.Code }).ToListAsync()).Select(row => (row.Set, row.Bench))];
    }
}
