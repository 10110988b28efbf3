using Microsoft.EntityFrameworkCore;
using Npgsql;
using Nursery.Application.HeatZones;
using Nursery.Application.Outages;
using Nursery.Application.Plans.Changes;
using Nursery.Application.Reservations;
using Nursery.Application.Runs;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;
using Nursery.Planning;
using Nursery.Planning.Plans;

namespace Nursery.Application.Plans;

/// <summary>A proposal to put in force.</summary>
/// <param name="Batches">Codes of the batches to accept; null is all.</param>
public sealed record AcceptPlanRequest(Guid Id, IReadOnlyList<string>? Batches = null);

/// <summary>What was accepted.</summary>
/// <param name="Batches">Codes.</param>
/// <param name="Setpoints">Spans of days zones were set for.</param>
/// <param name="Notes">What to know about it, a sentence each.</param>
/// <param name="Running">Codes of running trays that were given other places or days.</param>
public sealed record AcceptedPlan(IReadOnlyList<string> Batches, int Setpoints, IReadOnlyList<string> Notes, IReadOnlyList<string> Running);

/// <summary>Makes a proposal the plan in force: sowing days, places and setpoints in one transaction, all of the proposal or the batches
/// that are chosen. What is sown stays, unless something happened to it: then benches and zones are out of use, running trays go where the
/// proposal has them, and of the others only those that change are written. A zone is set only for weeks in which an accepted batch lies on
/// it; in others it stays as it is.</summary>
public sealed class AcceptPlan(IDbContextFactory<NurseryDbContext> databases, SetSetpoint setpoints, TakeOutOfUse outages, TimeProvider time)
{
    /// <exception cref="PlanGroundMoved">It no longer fits, with the reasons.</exception>
    /// <exception cref="NoOpenProposal">It is not ready, was accepted or dropped.</exception>
    public Task<AcceptedPlan> HandleAsync(AcceptPlanRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => AcceptAsync(database, request, actor, cancellation), cancellation);
    }

    private async Task<AcceptedPlan> AcceptAsync(
        NurseryDbContext database, AcceptPlanRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var (run, kept) = await OpenProposals.LockAsync(database, request.Id, actor, cancellation);
        var plan = PlanningJson.ReadPlan(kept.Plan!);
        var chosen = Written(Chosen(plan, request.Batches), kept);
        var sets = kept.Replan?.Sets ?? [];

        // Batches the whole proposal has no place for give theirs up where others stand by then.
        var given = request.Batches is null ? plan.Unplaced.Select(batch => batch.Id).ToHashSet() : [];
        var ground = kept.Batches.Where(batch => given.Contains(batch.Code) || chosen.Any(placed => placed.Id == batch.Code)).ToList();
        var batches = await database.LockBatchesAsync(
            [.. ground.Select(batch => new Id<Batch>(batch.BatchId)), .. await RunningAsync(database, sets, cancellation)], cancellation);
        var benches = await database.LockBenchesAsync(
            await database.Benches.Where(bench => bench.SiteId == site.Id && bench.RetiredOn == null).Select(bench => bench.Id).ToListAsync(cancellation),
            cancellation);
        var today = site.Today(time);
        var since = NodaTime.LocalDate.FromDateOnly(PlanningJson.ReadProblem(kept.Problem!).Start);
        var rows = await SeasonRows.LoadAsync(database, site, since, cancellation);
        var happened = new ProposedOutages(rows, kept.Request.Changes, today);
        var running = new RunningPlaces(happened.Applied(), sets, today);
        Refuse([.. happened.Reasons, .. running.Reasons(ground.Select(batch => new Id<TraySet>(batch.TraySetId)).ToHashSet())]);
        var places = new ProposedPlaces(running.Applied(), benches, chosen, ground, given, today);
        Refuse(places.Reasons);

        await PlanChange.DeferAsync(database, cancellation);
        await happened.WriteAsync(database, site, outages, actor, cancellation);
        await running.WriteAsync(database, site, actor, time, batches, cancellation);
        foreach (var place in places.All)
        {
            await WriteAsync(database, site, actor, batches.Single(row => row.Id == place.Row.Batch.Id), place, today, cancellation);
        }

        await SaveAsync(database, cancellation);
        var set = await SetAsync(database, [.. running.Setpoints(), .. places.Setpoints()], actor, cancellation);
        await TaskWriting.SyncAsync(database, batches, today, time, cancellation);
        run.Result = RunProgress.JsonOf(kept with { Accepted = [.. chosen.Select(batch => batch.Id)] });
        await database.SaveChangesAsync(cancellation);
        return new AcceptedPlan(
            [.. chosen.Select(batch => batch.Id)], set, [.. kept.Replan?.Homeless ?? [], .. places.Notes], [.. sets.Select(one => one.Code)]);
    }

    private static Task<List<Id<Batch>>> RunningAsync(NurseryDbContext database, IReadOnlyList<RunningSet> sets, CancellationToken cancellation)
    {
        var ids = sets.Select(set => new Id<TraySet>(set.TraySetId)).ToList();
        return database.TrayShares.Where(share => ids.Contains(share.TraySetId)).Select(share => share.BatchId).ToListAsync(cancellation);
    }

    /// <summary>Of a plan that keeps today's only what differs from it; of a whole one all.</summary>
    private static List<PlannedBatch> Written(List<PlannedBatch> chosen, KeptPlan kept)
    {
        if (kept.Request.Aim != PlanAim.Keep)
        {
            return chosen;
        }

        var today = PlanningJson.ReadPlan(kept.Today!).Batches.ToDictionary(batch => batch.Id);
        return chosen.FindAll(placed => !today.TryGetValue(placed.Id, out var was) || !Same(was, placed));
    }

    private static bool Same(PlannedBatch was, PlannedBatch now) =>
        (was.SowOn, was.MoveOffOn, was.HardenOn, was.ReadyOn, was.SetpointF) == (now.SowOn, now.MoveOffOn, now.HardenOn, now.ReadyOn, now.SetpointF)
        && was.Heat.ToHashSet().SetEquals(now.Heat) && was.Benches.ToHashSet().SetEquals(now.Benches);

    private static List<PlannedBatch> Chosen(Plan plan, IReadOnlyList<string>? codes)
    {
        if (codes is null)
        {
            return [.. plan.Batches];
        }

        var placed = plan.Batches.ToDictionary(batch => batch.Id);
        var checks = new FieldChecks();
        foreach (var code in codes.Where(code => !placed.ContainsKey(code)))
        {
            checks.Fail("batches", code, "codes of batches the proposal has a place for");
        }

        if (codes.Count == 0)
        {
            checks.Fail("batches", "none", "one batch or more");
        }

        checks.Done();
        return [.. codes.Distinct().Select(code => placed[code])];
    }

    private static void Refuse(IReadOnlyList<string> reasons)
    {
        if (reasons.Count > 0)
        {
            throw new PlanGroundMoved(reasons);
        }
    }

    private async Task WriteAsync(
        NurseryDbContext database, Site site, Actor actor, Batch batch, ProposedPlace place, NodaTime.LocalDate today,
        CancellationToken cancellation)
    {
        var traySet = place.Row.TraySet.Id;
        var change = new PlanChange(database, site, actor, time);
        var before = await database.Reservations.Where(row => row.TraySetId == traySet).ToListAsync(cancellation);
        foreach (var row in before.Where(row => row.Days.End >= today))
        {
            change.EndOn(row, NodaTime.LocalDate.Max(today, row.Days.Start));
        }

        foreach (var hold in place.Holds)
        {
            change.Hold(hold.AsReservation(site.Id, traySet), hold.Trays, hold.Bench, hold.Spaces, hold.From, hold.To);
        }

        if (before.Count + place.Holds.Count > 0)
        {
            change.Write(place.Sentence, batch.Id);
        }

        if (place.Placed is { } placed && (batch.SowOn != place.SowOn || batch.ReadyOn != place.ReadyOn))
        {
            if (batch.SowOn != place.SowOn)
            {
                database.Write(
                    site, actor, time, new Domain.Ledger.BatchReplanned(
                        place.Row.TraySet.Trays, NodaTime.Text.LocalDatePattern.Iso.Format(place.SowOn), null), batch.Id, traySet);
            }

            (batch.SowOn, batch.ReadyOn) = (place.SowOn, place.ReadyOn);
            batch.Version++;
        }
    }

    private static async Task SaveAsync(NurseryDbContext database, CancellationToken cancellation)
    {
        try
        {
            await database.SaveChangesAsync(cancellation);
            await PlanChange.CheckAsync(database, cancellation);
        }
        catch (Exception failure) when (failure.PostgresFailure()?.SqlState == PostgresErrorCodes.ExclusionViolation)
        {
            // Only a writer that did not lock the benches gets us here; the constraint has the last word.
            throw new PlanGroundMoved(["Other trays hold one of the spaces by now"]);
        }
    }

    /// <summary>Sets the zones under the accepted batches, where they are not set so already.</summary>
    /// <returns>How many spans of days were set.</returns>
    private async Task<int> SetAsync(NurseryDbContext database, IReadOnlyList<ProposedSetpoint> spans, Actor actor, CancellationToken cancellation)
    {
        var (reasons, set) = (new List<string>(), 0);
        foreach (var span in spans)
        {
            try
            {
                await setpoints.SetAsync(
                    database, new SetSetpointRequest(span.Zone, span.SetpointC, span.From, span.To), actor, cancellation);
                set++;
            }
            catch (WouldHarm harm)
            {
                reasons.Add(harm.Message);
            }
        }

        Refuse(reasons);
        return set;
    }
}
