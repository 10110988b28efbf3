using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Outages;
using Nursery.Application.Plans;
using Nursery.Application.Plans.Changes;
using Nursery.Application.Reservations;
using Nursery.Domain.Ledger;
using Nursery.Domain.Refusals;
using Nursery.Planning;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Plans.Changes;

/// <summary>On Monday, 2 March 2026; zones of 80, 70 and 60 °F, one warm bench of 40 spaces.</summary>
public sealed class KeepPlanTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    [Fact]
    public async Task Keep_NothingHappened_ChangesAndWritesNothing()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlannedSeasonAsync();
        var before = await nursery.DumpAsync();

        var proposal = await nursery.KeepAsync();

        Assert.Equal((0, 4, ProposalState.Open), (proposal.Run.Changed, proposal.Run.NotStarted, proposal.Run.Proposal));
        Assert.Empty(proposal.Run.Running);
        Assert.Empty(proposal.Run.Homeless);
        var accepted = await nursery.AcceptAsync(proposal);
        Assert.Equal((0, 0, 0), (accepted.Batches.Count, accepted.Setpoints, accepted.Running.Count));
        Assert.Equal(before, await nursery.DumpAsync());
    }

    [Fact]
    public async Task Keep_BatchNotSownOnItsDay_IsSownLaterAndThenStays()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await nursery.PlannedSeasonAsync();
        var zone = (await nursery.KeepAsync()).Comparison.Batches.Single(change => change.Code == planned[0].Code).Today!.Zones[0];
        nursery.Clock.Advance(TimeSpan.FromDays(3));

        var late = await nursery.KeepAsync(new ZoneOut(zone, nursery.Today, nursery.Today.PlusDays(40)));
        var accepted = await nursery.AcceptAsync(late);
        Assert.NotEmpty(accepted.Batches);
        Assert.Equal(late.Run.Changed, accepted.Batches.Count);

        var again = await nursery.KeepAsync();
        Assert.Equal(0, again.Run.Changed);
        Assert.Empty((await nursery.AcceptAsync(again)).Batches);
    }

    [Fact]
    public async Task Keep_BenchOutOfUse_RunningTraysGoToAnotherAndTheBenchIsOut()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.GrowingAsync("W1", 5, 8, 30);
        await nursery.WarmBenchAsync("W2", 20);
        nursery.Clock.Advance(TimeSpan.FromDays(2));

        var proposal = await nursery.KeepAsync(new BenchOut("W1", nursery.Today.PlusDays(1), nursery.Today.PlusDays(10), "leg broken"));

        Assert.Equal(["Bench W1 cannot be used from 5 March 2026 until 14 March 2026: leg broken"], proposal.Run.ChangesInWords);
        var running = Assert.Single(proposal.Run.Running);
        Assert.Equal((batch.Code, true, false), (running.Code, running.Moves, running.Longer));
        Assert.Equal(
            $"{batch.Code}: trays 1–8 from bench W1 to bench W2, spaces 1–8, from 5 March 2026 until 1 April 2026 (Bench W1 is out of use from 5 March 2026 until 14 March 2026: leg broken)",
            running.Sentence);
        Assert.Equal(["1–8 on W1 5–12, day 0 to 30"], await nursery.PlacesAsync(batch.TraySetCode));

        var accepted = await nursery.AcceptAsync(proposal);

        Assert.Equal([batch.Code], accepted.Running);
        Assert.Equal(["1–8 on W1 5–12, day 0 to 3", "1–8 on W2 1–8, day 3 to 30"], await nursery.PlacesAsync(batch.TraySetCode));
        var outage = Assert.Single((await nursery.Get<ListOutages>().HandleAsync(new Paging(), nursery.Staff)).Items);
        Assert.Equal(("W1", nursery.Today.PlusDays(1), nursery.Today.PlusDays(10), "leg broken", 0), (outage.BenchCode, outage.From, outage.To, outage.Why, outage.TraySets.Count));
        await using var rows = await nursery.DatabaseAsync();
        var kinds = await rows.Ledger.Where(entry => entry.SiteId == nursery.At.Site.Id && entry.Day == nursery.Today).Select(entry => entry.Kind).ToListAsync();
        Assert.Equal([LedgerKind.Replanned, LedgerKind.TakenOutOfUse], kinds.Order());
        await Assert.ThrowsAsync<NoOpenProposal>(() => nursery.AcceptAsync(proposal));
    }

    [Fact]
    public async Task Keep_NoRunIsLongEnough_TheTraysAreSplit()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.GrowingAsync("W1", 1, 8, 30);
        await nursery.WarmBenchAsync("W2", 12);
        await nursery.GrowingAsync("W2", 5, 2, 40);

        var proposal = await nursery.KeepAsync(new BenchOut("W1", nursery.Today, nursery.Today.PlusDays(10)));
        await nursery.AcceptAsync(proposal);

        Assert.Empty(proposal.Run.Homeless);
        Assert.Equal(["1–6 on W2 7–12, day 0 to 30", "7–8 on W2 1–2, day 0 to 30"], (await nursery.PlacesAsync(batch.TraySetCode)).Order());
    }

    [Fact]
    public async Task Keep_NoOtherSpaces_NamesTheTraysAndLeavesThemWhereTheyAre()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.GrowingAsync("W1", 1, 8, 30);
        await nursery.WarmBenchAsync("W2", 3);

        var proposal = await nursery.KeepAsync(new BenchOut("W1", nursery.Today.PlusDays(5), nursery.Today.PlusDays(10)));
        var accepted = await nursery.AcceptAsync(proposal);

        Assert.Equal(
            [$"{batch.Code}: no spaces on a warm bench for trays 4–8 (5 missing) from 7 March 2026 until 1 April 2026; they stay reserved on bench W1, which cannot be used: rent some, or throw trays away"],
            proposal.Run.Homeless);
        Assert.Equal(proposal.Run.Homeless, accepted.Notes);
        Assert.Equal(
            ["1–8 on W1 1–8, day 0 to 5", "1–3 on W2 1–3, day 5 to 30", "4–8 on W1 4–8, day 5 to 30"], await nursery.PlacesAsync(batch.TraySetCode));
        Assert.Equal([batch.TraySetCode], Assert.Single((await nursery.Get<ListOutages>().HandleAsync(new Paging(), nursery.Staff)).Items).TraySets);
    }

    [Fact]
    public async Task Keep_BatchesNotSownOfABenchThatFails_ArePlacedAnewAndTheOthersStay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await nursery.PlannedSeasonAsync();
        await nursery.WarmBenchAsync("W2", 30);
        var lettuce = await nursery.PlacesAsync(planned[1].TraySetCode);

        var proposal = await nursery.KeepAsync(new BenchOut("W1", nursery.Today, nursery.Today.PlusDays(100)));
        var accepted = await nursery.AcceptAsync(proposal);

        Assert.Equal((3, 4), (proposal.Run.Changed, proposal.Run.NotStarted));
        Assert.Equal(new[] { planned[0].Code, planned[2].Code, planned[3].Code }.Order(), accepted.Batches.Order());
        Assert.Equal(lettuce, await nursery.PlacesAsync(planned[1].TraySetCode));
        Assert.All(proposal.Comparison.Batches.Where(change => change.Code != planned[1].Code), change => Assert.Equal(["W2"], change.Then!.Benches));
        var again = await nursery.KeepAsync();
        Assert.Equal((0, 0), (again.Run.Changed, (await nursery.AcceptAsync(again)).Batches.Count));
    }

    [Fact]
    public async Task Keep_ZoneBroken_TraysGoToAZoneThatMayHaveTheirSetpointAndItIsSet()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.ReserveAsync(batch, "W1", 1, nursery.Today.PlusDays(12), nursery.Today.PlusDays(40));
        await nursery.SowAsync(batch);

        var proposal = await nursery.KeepAsync(new ZoneOut("Z80", nursery.Today.PlusDays(1), nursery.Today.PlusDays(20)));
        var accepted = await nursery.AcceptAsync(proposal);

        Assert.Equal(
            ["1–8 on G1 1–8, day 0 to 1", "1–8 on G1 11–18, day 1 to 12", "1–8 on W1 1–8, day 12 to 40"], await nursery.PlacesAsync(batch.TraySetCode));
        Assert.Equal(1, accepted.Setpoints);
        Assert.Contains("from heat zone Z80 to heat zone Z70, spaces 11–18", Assert.Single(proposal.Run.Running).Sentence, StringComparison.Ordinal);
        await using var rows = await nursery.DatabaseAsync();
        var span = await rows.ZoneSetpoints.SingleAsync(row => row.SiteId == nursery.At.Site.Id);
        Assert.Equal((nursery.At.Zones[1].Id, TestCrops.Celsius(80), nursery.Today, nursery.Today.PlusDays(13)), (span.ZoneId, span.SetpointC, span.Days.Start, span.Days.End));
    }

    [Fact]
    public async Task Keep_ZoneBroken_NoZoneIsTakenWhoseTraysDoNotBearTheHeat()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 3);
        await nursery.ReserveAsync(pepper, "G1", 1, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.SowAsync(pepper);

        // Three spaces of the small zone are free, which would be the best run; but lettuce stands no more than 75 °F.
        var lettuce = await nursery.PlanAsync(nursery.Lettuce, trays: 1);
        await nursery.ReserveAsync(lettuce, "G1", 24, nursery.Today, nursery.Today.PlusDays(6));
        await nursery.SowAsync(lettuce);

        var proposal = await nursery.KeepAsync(new ZoneOut("Z80", nursery.Today.PlusDays(2), nursery.Today.PlusDays(20)));
        await nursery.AcceptAsync(proposal);

        Assert.Equal(["1–3 on G1 1–3, day 0 to 2", "1–3 on G1 11–13, day 2 to 12"], await nursery.PlacesAsync(pepper.TraySetCode));
        Assert.Equal(["1 on G1 24, day 0 to 6"], await nursery.PlacesAsync(lettuce.TraySetCode));
    }

    [Fact]
    public async Task Keep_ZoneBroken_WhatIsNotSownLeavesTheZoneThatRunningTraysNeed()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var pepper = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await nursery.ReserveAsync(pepper, "G1", 1, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.SowAsync(pepper);

        // The week has begun: what its zones are set to is promised.
        nursery.Clock.Advance(TimeSpan.FromDays(1));
        var lettuce = await nursery.PlanAsync(nursery.Lettuce, trays: 2, inDays: 1);
        await nursery.ReserveAsync(lettuce, "G1", 19, nursery.Today.PlusDays(1), nursery.Today.PlusDays(6));
        await nursery.ReserveAsync(lettuce, "C1", 1, nursery.Today.PlusDays(6), nursery.Today.PlusDays(36));

        var proposal = await nursery.KeepAsync(new ZoneOut("Z80", nursery.Today.PlusDays(2), nursery.Today.PlusDays(20)));
        await nursery.AcceptAsync(proposal);

        Assert.Equal(["1–8 on G1 1–8, day 0 to 3", "1–8 on G1 11–18, day 3 to 12"], await nursery.PlacesAsync(pepper.TraySetCode));
        Assert.Equal((1, 1), (proposal.Run.Changed, proposal.Run.NotStarted));
        var then = Assert.Single(proposal.Comparison.Batches).Then!;
        Assert.True(then.Zones[0] == "Z60" || then.SowOn >= nursery.Today.PlusDays(13).ToDateOnly(), $"{then.Zones[0]} on {then.SowOn}");
    }

    [Fact]
    public async Task Keep_SownBatchSlips_ItStaysLongerAndIsReadyLater()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 8);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(12));
        await nursery.ReserveAsync(batch, "W1", 1, nursery.Today.PlusDays(12), nursery.Today.PlusDays(40));
        await nursery.SowAsync(batch);
        nursery.Clock.Advance(TimeSpan.FromDays(3));

        var proposal = await nursery.KeepAsync(new SlippedBatch(batch.Code, 5));
        await nursery.AcceptAsync(proposal);

        var running = Assert.Single(proposal.Run.Running);
        Assert.Equal((false, true), (running.Moves, running.Longer));
        Assert.Equal(
            $"{batch.Code}: ready 5 days later; trays 1–8 on bench G1 until 19 March 2026 instead of 14 March 2026; trays 1–8 on bench W1 until 16 April 2026 instead of 11 April 2026",
            running.Sentence);
        Assert.Equal(
            ["1–8 on G1 1–8, day 0 to 12", "1–8 on G1 1–8, day 12 to 17", "1–8 on W1 1–8, day 17 to 45"], await nursery.PlacesAsync(batch.TraySetCode));
        await using var rows = await nursery.DatabaseAsync();
        Assert.Equal(batch.ReadyOn.PlusDays(5), (await rows.Batches.SingleAsync(row => row.Code == batch.Code && row.SiteId == nursery.At.Site.Id)).ReadyOn);
    }

    [Fact]
    public async Task Keep_SlippedTraysMeetOthers_WhatIsNotSownGivesWayAndWhatIsSownDoesNot()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Tomato, trays: 10);
        await nursery.ReserveAsync(batch, "G1", 1, nursery.Today, nursery.Today.PlusDays(8));
        await nursery.SowAsync(batch);
        var sown = await nursery.PlanAsync(nursery.Tomato, trays: 3);
        await nursery.ReserveAsync(sown, "G1", 11, nursery.Today, nursery.Today.PlusDays(10));
        await nursery.SowAsync(sown);
        var next = await nursery.PlanAsync(nursery.Pepper, trays: 10, inDays: 8);
        await nursery.AcceptAsync(await nursery.ProposeAsync(PlanAim.Whole));

        var proposal = await nursery.KeepAsync(new SlippedBatch(batch.Code, 30));
        await nursery.AcceptAsync(proposal);

        Assert.Equal(["1–3 on G1 11–13, day 0 to 10"], await nursery.PlacesAsync(sown.TraySetCode));
        Assert.Equal(["1–10 on G1 1–10, day 0 to 8", "1–10 on G1 1–10, day 8 to 38"], await nursery.PlacesAsync(batch.TraySetCode));
        Assert.True(proposal.Run.Changed <= 1, $"{proposal.Run.Changed} of {proposal.Run.NotStarted} change.");
        Assert.DoesNotContain(await nursery.PlacesAsync(next.TraySetCode), place => place.Contains("on G1 1–10", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Keep_BatchNotSownSlips_ItIsSownLaterAndTheOthersStay()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await nursery.PlannedSeasonAsync();
        var was = (await nursery.KeepAsync()).Comparison.Batches.Single(change => change.Code == planned[3].Code).Today!.SowOn;

        var proposal = await nursery.KeepAsync(new SlippedBatch(planned[3].Code, 9));

        Assert.Equal(1, proposal.Run.Changed);
        Assert.True(proposal.Comparison.Batches.Single(change => change.Code == planned[3].Code).Then!.SowOn >= was.AddDays(9));
    }

    [Fact]
    public async Task Keep_OrderCameAndAnotherWent_OnlyTheNewBatchIsPlaced()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var planned = await nursery.PlannedSeasonAsync();
        await nursery.Get<DiscardBatch>().HandleAsync(new(nursery.NewEntryId(), planned[2].Id, "cancelled"), nursery.HeadGrower);
        var late = await nursery.PlanAsync(nursery.Tomato, trays: 3, inDays: 20);

        var proposal = await nursery.KeepAsync();
        var accepted = await nursery.AcceptAsync(proposal);

        Assert.Equal((0, 3), (proposal.Run.Changed, proposal.Run.NotStarted));
        Assert.Equal([late.Code], accepted.Batches);
    }

    [Fact]
    public async Task Keep_SharedTraysOfABenchThatFails_GoAsOne()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var one = await nursery.PlanAsync(nursery.Pepper, trays: 1);
        var other = await nursery.PlanAsync(nursery.Tomato, trays: 1);
        var shared = await nursery.Get<ShareTrays>().HandleAsync(
            new([new(one.Id, 1, 4), new(other.Id, 1, 8)]), nursery.HeadGrower);
        await nursery.WarmBenchAsync("W2", 10);
        await nursery.Get<ReserveSpaces>().HandleAsync(
            new(shared.TraySetCode, "W1", 1, 7, nursery.Today, nursery.Today.PlusDays(30)), nursery.HeadGrower);

        var proposal = await nursery.KeepAsync(new BenchOut("W1", nursery.Today.PlusDays(3), nursery.Today.PlusDays(10)));
        await nursery.AcceptAsync(proposal);

        Assert.Equal(shared.TraySetCode, Assert.Single(proposal.Run.Running).Code);
        Assert.Equal(["1 on W1 7, day 0 to 3", "1 on W2 1, day 3 to 30"], await nursery.PlacesAsync(shared.TraySetCode));
    }

    [Fact]
    public async Task Keep_SameStepsAndSeed_GiveTheSamePlan()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        await nursery.PlannedSeasonAsync();
        await nursery.GrowingAsync("W1", 33, 8, 30);
        await nursery.WarmBenchAsync("W2", 20);
        var change = new BenchOut("W1", nursery.Today, nursery.Today.PlusDays(60));

        var (one, other) = (await nursery.KeepAsync(change), await nursery.KeepAsync(change));

        Assert.Equal(PlanningJson.Write(one.Run.Plan!), PlanningJson.Write(other.Run.Plan!));
        Assert.Equal(one.Run.Running, other.Run.Running);
    }

    [Fact]
    public async Task Accept_RunningTraysWereMovedMeanwhile_IsRefusedAndNothingIsWritten()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.GrowingAsync("W1", 1, 8, 30);
        await nursery.WarmBenchAsync("W2", 20);
        var proposal = await nursery.KeepAsync(new BenchOut("W1", nursery.Today, nursery.Today.PlusDays(10)));
        await using (var rows = await nursery.DatabaseAsync())
        {
            var place = await rows.Reservations.SingleAsync(row => row.SiteId == nursery.At.Site.Id);
            await nursery.Get<MoveTrays>().HandleAsync(new(place.Id.Value, "W1", 20), nursery.HeadGrower);
        }

        var before = await nursery.DumpAsync();
        var refusal = await Assert.ThrowsAsync<PlanGroundMoved>(() => nursery.AcceptAsync(proposal));

        Assert.Equal([$"{batch.Code} was given other spaces since"], refusal.Reasons);
        Assert.Equal(before, await nursery.DumpAsync());
    }

    [Fact]
    public async Task Accept_TheSpacesAreTakenOrOutOfUseMeanwhile_IsRefusedWithTheReason()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.GrowingAsync("W1", 1, 8, 30);
        await nursery.WarmBenchAsync("W2", 20);
        var proposal = await nursery.KeepAsync(new BenchOut("W1", nursery.Today, nursery.Today.PlusDays(10)));
        var other = await nursery.GrowingAsync("W2", 8, 2, 5);

        var taken = await Assert.ThrowsAsync<PlanGroundMoved>(() => nursery.AcceptAsync(proposal));
        Assert.Equal([$"{batch.Code} cannot have 1–8 of bench W2: {other.TraySetCode} holds spaces there until 7 March 2026"], taken.Reasons);

        await nursery.Get<TakeOutOfUse>().HandleAsync(new("W1", null, nursery.Today, nursery.Today.PlusDays(2)), nursery.HeadGrower);
        await nursery.Get<TakeOutOfUse>().HandleAsync(new("W2", null, nursery.Today, nursery.Today.PlusDays(2), "leaks"), nursery.HeadGrower);
        var lost = await Assert.ThrowsAsync<PlanGroundMoved>(() => nursery.AcceptAsync(proposal));
        Assert.Equal(
            ["Bench W1 is out of use from 2 March 2026 until 4 March 2026 already", $"{batch.Code} has no place: Bench W2 is out of use from 2 March 2026 until 4 March 2026: leaks"],
            lost.Reasons);
    }

    [Fact]
    public async Task Accept_ADayTooLate_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.GrowingAsync("W1", 1, 8, 30);
        await nursery.WarmBenchAsync("W2", 20);
        var proposal = await nursery.KeepAsync(new BenchOut("W1", nursery.Today, nursery.Today.PlusDays(10)));
        nursery.Clock.Advance(TimeSpan.FromDays(1));

        var refusal = await Assert.ThrowsAsync<PlanGroundMoved>(() => nursery.AcceptAsync(proposal));

        Assert.Equal([$"{batch.Code} should have been carried on 2 March 2026"], refusal.Reasons);
    }

    [Fact]
    public async Task Accept_WholePlanOntoABenchTakenOutMeanwhile_IsRefused()
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var batch = await nursery.PlanAsync(nursery.Pepper, trays: 4);
        var proposal = await nursery.ProposeAsync(PlanAim.Whole);
        await nursery.Get<TakeOutOfUse>().HandleAsync(new("W1", null, nursery.Today, nursery.Today.PlusDays(60), "leg broken"), nursery.HeadGrower);

        var refusal = await Assert.ThrowsAsync<PlanGroundMoved>(() => nursery.AcceptAsync(proposal));

        Assert.Equal([$"{batch.Code} has no place: Bench W1 is out of use from 2 March 2026 until 1 May 2026: leg broken"], refusal.Reasons);
        Assert.NotEmpty((await nursery.ProposeAsync(PlanAim.Whole)).Run.Unplaced);
    }
}
