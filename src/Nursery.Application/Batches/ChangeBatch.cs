using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Reservations;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Sowings;
using Nursery.Application.Tasks;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Batches;

/// <summary>Another tray count (1–10,000), number of seeds a cell, sowing day (today or later) or lot for a batch that is not sown; null keeps what is.</summary>
/// <param name="BatchId">The batch.</param>
/// <param name="Version">The version the change was made from.</param>
/// <param name="Trays">Trays.</param>
/// <param name="SowOn">Sowing day.</param>
/// <param name="LotCode">A lot of its variety.</param>
/// <param name="SeedsPerCell">Seeds a cell, 1–50.</param>
public sealed record ChangeBatchRequest(Guid BatchId, int Version, int? Trays, LocalDate? SowOn, string? LotCode, int? SeedsPerCell = null);

/// <summary>What follows from a change, in sentences; nothing is stored in a trial.</summary>
public sealed record BatchChange(LocalDate SowOn, LocalDate ReadyOn, int Trays, IReadOnlyList<string> Follows);

/// <summary>Changes a planned batch and everything that hangs on it: ready day, spaces, tasks.</summary>
public sealed class ChangeBatch(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="AlreadySown">Its day and trays are facts now.</exception>
    /// <exception cref="ChangedMeanwhile">Someone else changed it.</exception>
    public Task<BatchChange> HandleAsync(ChangeBatchRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => ChangeAsync(database, request, actor, cancellation), cancellation);
    }

    /// <summary>Everything that would follow, tried in a transaction that is not kept.</summary>
    public async Task<BatchChange> TryAsync(ChangeBatchRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        await using var transaction = await database.Database.BeginTransactionAsync(cancellation);
        return await ChangeAsync(database, request, actor, cancellation);
    }

    private async Task<BatchChange> ChangeAsync(
        NurseryDbContext database, ChangeBatchRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var batch = (await database.LockBatchesAsync([new Id<Batch>(request.BatchId)], cancellation))
            .SingleOrDefault(row => row.SiteId == actor.SiteId) ?? throw new NotFound("batch", "id", request.BatchId.ToString());
        if (batch.State.Stage != BatchStage.Planned)
        {
            throw new AlreadySown(batch.Code);
        }

        var variety = await database.Varieties.SingleAsync(row => row.Id == batch.VarietyId, cancellation);
        var crop = await database.Crops.SingleAsync(row => row.Id == variety.CropId, cancellation);
        var traySet = await OwnTraySetAsync(database, batch, cancellation);
        if (batch.Version != request.Version)
        {
            throw new ChangedMeanwhile($"Batch {batch.Code}", batch.Version, Differences(request, batch, traySet));
        }

        var lot = await CheckAsync(database, request, batch, today, cancellation);
        var before = (batch.SowOn, traySet.Trays);
        var place = (await HeatPlaces.LoadAsync(database, [traySet.Id], cancellation)).Of(traySet.Id, batch.SowOn);
        var ground = await SowingGround.LoadAsync(database, site, today, cancellation);
        var follows = new List<string>();
        Apply(request, batch, traySet, lot, day => PlannedHeat.DaysToReady(crop, ground.Heat.SpotOf(crop, day, place)), follows);
        if (before != (batch.SowOn, traySet.Trays))
        {
            await MoveSpacesAsync(
                database, site, actor, traySet, Period.DaysBetween(before.SowOn, batch.SowOn), today, follows, cancellation);
        }

        await TellOrdersAsync(database, batch, follows, cancellation);
        await TellChanceAsync(database, ground, batch, traySet, (crop, variety, place), follows, cancellation);
        batch.Version++;
        database.Write(
            site, actor, time, new BatchReplanned(traySet.Trays, LocalDatePattern.Iso.Format(batch.SowOn), lot?.Code, request.SeedsPerCell),
            batch.Id, traySet.Id);
        await database.SaveChangesAsync(cancellation);
        await TaskWriting.SyncAsync(database, [batch], today, time, cancellation);
        return new BatchChange(batch.SowOn, batch.ReadyOn, traySet.Trays, follows);
    }

    private static List<TwoValues> Differences(ChangeBatchRequest request, Batch batch, TraySet traySet)
    {
        var values = new List<TwoValues>();
        if (request.Trays is { } trays && trays != traySet.Trays)
        {
            values.Add(new TwoValues(
                "trays", trays.ToString(CultureInfo.InvariantCulture), traySet.Trays.ToString(CultureInfo.InvariantCulture)));
        }

        if (request.SowOn is { } sowOn && sowOn != batch.SowOn)
        {
            values.Add(new TwoValues("sowOn", LocalDatePattern.Iso.Format(sowOn), LocalDatePattern.Iso.Format(batch.SowOn)));
        }

        return values;
    }

    private static async Task<TraySet> OwnTraySetAsync(NurseryDbContext database, Batch batch, CancellationToken cancellation)
    {
        var traySet = await (
            from share in database.TrayShares
            join set in database.TraySets on share.TraySetId equals set.Id
            where share.BatchId == batch.Id
            select set).SingleAsync(cancellation);
        var sharing = await database.TrayShares.CountAsync(share => share.TraySetId == traySet.Id, cancellation);
        return sharing == 1 ? traySet : throw new TraysAreShared(traySet.Code, sharing);
    }

    private static async Task<SeedLot?> CheckAsync(
        NurseryDbContext database, ChangeBatchRequest request, Batch batch, LocalDate today, CancellationToken cancellation)
    {
        var checks = new FieldChecks();
        if (request.Trays is { } trays)
        {
            checks.Range("trays", trays, 1, 10_000);
        }

        if (request.SeedsPerCell is { } seeds)
        {
            checks.Range("seedsPerCell", seeds, 1, 50);
        }

        if (request.SowOn is { } sowOn && (sowOn < today || sowOn > today.PlusYears(10)))
        {
            checks.Fail("sowOn", LocalDatePattern.Iso.Format(sowOn), "today to ten years on");
        }

        var lot = request.LotCode is null
            ? null
            : await database.SeedLots.SingleOrDefaultAsync(row => row.Code == request.LotCode && row.RetiredOn == null, cancellation);
        if (request.LotCode is not null && lot?.VarietyId != batch.VarietyId)
        {
            checks.Fail("lotCode", request.LotCode, $"the code of a seed lot of the variety of batch {batch.Code}");
        }

        checks.Done();
        return lot;
    }

    private static void Apply(
        ChangeBatchRequest request, Batch batch, TraySet traySet, SeedLot? lot, Func<LocalDate, int> daysToReady, List<string> follows)
    {
        if (request.Trays is { } trays && trays != traySet.Trays)
        {
            follows.Add(string.Create(
                CultureInfo.InvariantCulture, $"{trays} trays instead of {traySet.Trays}: {trays * traySet.CellsPerTray} cells"));
            traySet.Trays = trays;
            batch.Cells = trays * traySet.CellsPerTray;
        }

        if (request.SeedsPerCell is { } seeds && seeds != batch.SeedsPerCell)
        {
            follows.Add(string.Create(
                CultureInfo.InvariantCulture, $"{seeds} seeds a cell instead of {batch.SeedsPerCell}: {(long)seeds * batch.Cells:N0} seeds to take"));
            batch.SeedsPerCell = seeds;
        }

        if (request.SowOn is { } sowOn && sowOn != batch.SowOn)
        {
            batch.SowOn = sowOn;
            batch.ReadyOn = sowOn.PlusDays(daysToReady(sowOn));
            follows.Add($"Sown {Day(sowOn)}, ready {Day(batch.ReadyOn)}");
        }

        if (lot is not null && lot.Id != batch.LotId)
        {
            batch.LotId = lot.Id;
            follows.Add(string.Create(
                CultureInfo.InvariantCulture, $"Lot {lot.Code}, label germination {lot.LabelGermination:P0}, {lot.StockSeeds} seeds in stock"));
        }
    }

    /// <summary>Every place still ahead moves with the day and takes the new number of spaces; where that is taken, the
    /// first free run of the same bench; where there is none, the place is given up.</summary>
    private async Task MoveSpacesAsync(
        NurseryDbContext database,
        Site site,
        Actor actor,
        TraySet traySet,
        int days,
        LocalDate today,
        List<string> follows,
        CancellationToken cancellation)
    {
        var benchIds = await database.Reservations.Where(row => row.TraySetId == traySet.Id)
            .Select(row => row.BenchId).ToListAsync(cancellation);
        var benches = (await database.LockBenchesAsync(benchIds, cancellation)).ToDictionary(bench => bench.Id);
        var rows = await database.Reservations.Where(row => row.TraySetId == traySet.Id).ToListAsync(cancellation);
        var share = await database.TrayShares.SingleAsync(row => row.TraySetId == traySet.Id, cancellation);
        share.Cells = traySet.Trays * traySet.CellsPerTray;
        if (rows.Count == 0)
        {
            return;
        }

        var change = new PlanChange(database, site, actor, time);
        var spaces = traySet.SpacesFor(traySet.Trays);
        foreach (var row in rows.OrderBy(row => row.Days.Start))
        {
            var bench = benches[row.BenchId];
            var (from, to) = (LocalDate.Max(today, row.Days.Start.PlusDays(days)), row.To.PlusDays(days));
            change.EndOn(row, row.Days.Start);
            var held = await HeldSpaces.OnAsync(database, [bench.Id], from, to, cancellation, except: row.Id);
            var temperatures = await BenchTemperatures.LoadAsync(database, bench, traySet.Id, from, to, cancellation);
            try
            {
                var first = FirstOf(() => SpaceSearch.Asked(bench, row.Spaces.First, spaces, held, temperatures))
                    ?? SpaceSearch.First(bench, spaces, from, to, held, temperatures);
                change.Hold(row, new SpaceRun(1, traySet.Trays), bench, new SpaceRun(first, spaces), from, to);
                follows.Add($"Bench {bench.Code}, spaces {new SpaceRun(first, spaces)}, {Day(from)} to {Day(to)}");
            }
            catch (Refusal refusal)
            {
                follows.Add($"Loses its place on bench {bench.Code}: {refusal.Message}");
            }
        }

        await change.SaveAsync($"{traySet.Code}: replanned", cancellation);
    }

    private static int? FirstOf(Func<int> search)
    {
        try
        {
            return search();
        }
        catch (Refusal)
        {
            // Not where it was: the caller looks elsewhere on the bench.
            return null;
        }
    }

    private static async Task TellOrdersAsync(
        NurseryDbContext database, Batch batch, List<string> follows, CancellationToken cancellation)
    {
        var wanted = await (
            from allocation in database.Allocations
            join line in database.OrderLines on allocation.OrderLineId equals line.Id
            join order in database.Orders on line.OrderId equals order.Id
            from delivery in database.OrderDeliveries.Where(row => row.Id == allocation.DeliveryId).DefaultIfEmpty()
            let wantedOn = delivery == null ? line.ReadyOn : delivery.ReadyOn
            where allocation.BatchId == batch.Id && wantedOn < batch.ReadyOn
            orderby wantedOn
            select new { order.Number, ReadyOn = wantedOn }).ToListAsync(cancellation);
        follows.AddRange(wanted.Select(line => string.Create(
            CultureInfo.InvariantCulture,
            $"Order {line.Number} wants them {Day(line.ReadyOn)}: {Period.DaysBetween(line.ReadyOn, batch.ReadyOn)} days late")));
    }

    /// <summary>What the orders of the batch may count on now.</summary>
    private static async Task TellChanceAsync(
        NurseryDbContext database,
        SowingGround ground,
        Batch batch,
        TraySet traySet,
        (Crop Crop, Variety Variety, (Id<Bench> Bench, int Space)? Place) what,
        List<string> follows,
        CancellationToken cancellation)
    {
        var plants = await database.Allocations.Where(row => row.BatchId == batch.Id).SumAsync(row => row.Plants, cancellation);
        if (plants == 0 || follows.Count == 0)
        {
            return;
        }

        var lot = batch.LotId is { } lotId ? await database.SeedLots.SingleAsync(row => row.Id == lotId, cancellation) : null;
        var sowing = ground.Of(new SowingWish(what.Crop, lot, plants, traySet.CellsPerTray, batch.SowOn, what.Place));
        follows.Add(sowing is null
            ? "Nothing would come up at that temperature"
            : string.Create(
                CultureInfo.InvariantCulture,
                $"The {plants:N0} plants ordered come with a chance of {SowingWords.Chance(sowing.Chance(batch.SeedsPerCell, batch.Cells))}"));
    }

    private static string Day(LocalDate day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);
}
