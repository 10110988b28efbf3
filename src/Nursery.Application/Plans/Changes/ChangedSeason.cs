using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Sowings;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Reservations;
using Nursery.Domain.TraySets;
using Nursery.Planning;
using Nursery.Planning.Changes;
using Nursery.Planning.Problems;

namespace Nursery.Application.Plans.Changes;

/// <summary>The season before and after something that happened or is tried out.</summary>
/// <param name="Before">As it is.</param>
/// <param name="After">With benches and zones out of use, and running trays where they would go.</param>
/// <param name="Changes">What is left to be told the planner of <paramref name="After"/>.</param>
internal sealed record ChangedSeason(
    LocalDate Today, SeasonGround Before, Problem After, IReadOnlyList<SeasonChange> Changes, IReadOnlyList<RunningSet> Running,
    IReadOnlyList<string> Homeless)
{
    public static async Task<ChangedSeason> LoadAsync(
        NurseryDbContext database, PlanRequest request, Actor actor, TimeProvider time, CancellationToken cancellation)
    {
        var (rows, today, start) = await SeasonProblems.RowsAsync(database, actor, time, cancellation);
        var added = await AddedAsync(database, request.Changes, actor, today, cancellation);
        var ask = SeasonAsk.Whole with
        {
            Keep = request.Aim == PlanAim.Keep,
            LevelsF = [.. request.Changes.OfType<TriedSetpoints>().SelectMany(zone => zone.SetpointsF)],
            Added = added,
        };
        var before = SeasonProblems.Of(rows, today, start, ask);
        var (running, homeless, moved, setpoints) = Happened(rows, today, start, request.Changes);
        var after = SeasonProblems.Of(moved, today, start, ask with { SetpointsF = setpoints });
        return new ChangedSeason(
            today,
            before with
            {
                Batches = [.. before.Batches, .. added.Select(batch => new BatchGround(Guid.Empty, Guid.Empty, batch.Code, batch.Variety, 0, batch.Trays, ""))],
            },
            after.Problem, [.. before.Added.Select(batch => new BatchAdded(batch)), .. Told(request.Changes, after.Problem)], running, homeless);
    }

    /// <summary>What happened to benches, zones and running trays.</summary>
    private static (IReadOnlyList<RunningSet> Running, IReadOnlyList<string> Homeless, SeasonRows Rows, IReadOnlyDictionary<Id<Reservation>, double> SetpointsF) Happened(
        SeasonRows rows, LocalDate today, LocalDate start, IReadOnlyList<PlanEvent> changes)
    {
        var moving = rows.Moving();
        var gone = changes.OfType<CancelledBatch>().Select(change => change.Batch).ToHashSet();
        var cleared = rows.Batches.GroupBy(row => row.TraySet.Id).Where(set => set.All(row => gone.Contains(row.Batch.Code))).Select(set => set.Key).ToHashSet();
        rows = rows with
        {
            Outages = [.. rows.Outages, .. changes.Select(change => OutageOf(rows, change)).OfType<SeasonOutage>()],
            Places = rows.Places.Where(group => moving.Contains(group.Key) || !cleared.Contains(group.Key)).SelectMany(group => group).ToLookup(place => place.TraySetId),
        };
        var (running, homeless) = Rehoming.Of(
            rows, today, start, changes.OfType<SlippedBatch>().ToDictionary(change => change.Batch, change => change.Days));
        var (moved, setpoints) = RunningSets.Applied(rows, running);
        return (running, homeless, moved, setpoints);
    }

    /// <summary>What an event takes out of use; null when it takes nothing.</summary>
    public static SeasonOutage? OutageOf(SeasonRows rows, PlanEvent change) => change switch
    {
        BenchOut bench when rows.Benches.FirstOrDefault(row => row.Code == bench.Bench) is { } found =>
            new SeasonOutage(found.Id, null, bench.From, bench.To, Why(bench.Why)),
        ZoneOut zone when rows.Zones.FirstOrDefault(row => row.Zone.Code == zone.Zone)?.Zone is { } found =>
            new SeasonOutage(found.BenchId, found.Id, zone.From, zone.To, Why(zone.Why)),
        _ => null,
    };

    private static string? Why(string? why) => string.IsNullOrWhiteSpace(why) ? null : why.Trim();

    /// <summary>Batches that come after this week's start of a problem are no part of it: nothing is told of them.</summary>
    private static IEnumerable<SeasonChange> Told(IReadOnlyList<PlanEvent> changes, Problem problem)
    {
        var batches = problem.Batches.Select(batch => batch.Id).ToHashSet();
        var zones = problem.Zones.Select(zone => zone.Id).ToHashSet();
        foreach (var (index, change) in changes.Index())
        {
            switch (change)
            {
                case SlippedBatch slip when batches.Contains(slip.Batch):
                    yield return new BatchSlips(slip.Batch, slip.Days);
                    break;
                case CancelledBatch cancelled when batches.Contains(cancelled.Batch):
                    yield return new BatchCancelled(cancelled.Batch);
                    break;
                case TriedSetpoints tried when zones.Contains(tried.Zone):
                    yield return new ZoneSetpoints(tried.Zone, [.. tried.SetpointsF.Distinct().Order()]);
                    break;
                case RentedSpaces rented:
                    yield return Rented(rented, index + 1, problem);
                    break;
                case MoreHardening hardening:
                    yield return new HardeningChanged(hardening.More);
                    break;
                case TriedPrices prices:
                    yield return new PricesChanged(Priced(problem.Prices ?? Prices.Usual, prices));
                    break;
            }
        }
    }

    private static SpacesRented Rented(RentedSpaces rented, int number, Problem problem)
    {
        var use = rented.Use switch { PlaceKind.Heat => BenchUse.Heat, PlaceKind.Cool => BenchUse.Cool, _ => BenchUse.Warm };
        var code = FormattableString.Invariant($"Rented {number}");
        return new SpacesRented(
            new Bench(code, "Rented", use, rented.Spaces, 60, 1200), new OutOfUse(rented.From.ToDateOnly(), rented.To.ToDateOnly()),
            [.. problem.Zones.SelectMany(zone => zone.SetpointsF).Distinct().Order()]);
    }

    /// <summary>The prices with those that are given instead.</summary>
    public static Prices Priced(Prices prices, TriedPrices tried) => prices with
    {
        DayOffDue = tried.DayOffDue ?? prices.DayOffDue,
        DayLate = tried.DayLate ?? prices.DayLate,
        DegreeOff = tried.DegreeOff ?? prices.DegreeOff,
        UnplacedTray = tried.UnplacedTray ?? prices.UnplacedTray,
        HeatTenDegrees = tried.HeatTenDegrees ?? prices.HeatTenDegrees,
        SetpointChange = tried.SetpointChange ?? prices.SetpointChange,
        Split = tried.Split ?? prices.Split,
        MovedSowDay = tried.MovedSowDay ?? prices.MovedSowDay,
        MovedPlace = tried.MovedPlace ?? prices.MovedPlace,
    };

    /// <summary>As many trays as would be sown for so many plants; a plant a cell where no number of cells gives them surely enough.</summary>
    private static async Task<IReadOnlyList<AddedBatch>> AddedAsync(
        NurseryDbContext database, IReadOnlyList<PlanEvent> changes, Actor actor, LocalDate today, CancellationToken cancellation)
    {
        var orders = changes.OfType<AddedOrder>().ToList();
        if (orders.Count == 0)
        {
            return [];
        }

        var site = await database.SiteOfAsync(actor, cancellation);
        var ground = await SowingGround.LoadAsync(database, site, today, cancellation);
        var added = new List<AddedBatch>();
        foreach (var (index, order) in orders.Index())
        {
            var variety = await database.Varieties.AsNoTracking().SingleAsync(row => row.Code == order.Variety, cancellation);
            var crop = await database.Crops.AsNoTracking().SingleAsync(row => row.Id == variety.CropId, cancellation);
            var lot = await database.SeedLots.AsNoTracking()
                .Where(lot => lot.VarietyId == variety.Id && lot.RetiredOn == null && lot.StockSeeds > 0)
                .OrderByDescending(lot => lot.LabelGermination).ThenBy(lot => lot.Code).FirstOrDefaultAsync(cancellation);
            var sowOn = LocalDate.Max(today, order.ReadyOn.PlusDays(-crop.DaysToReady - site.MarginDays));
            var sowing = ground.Of(new SowingWish(crop, lot, order.Plants, crop.CellsPerTray, sowOn));
            var trays = sowing?.Best(sowing.All())?.Trays ?? ((order.Plants + crop.CellsPerTray - 1) / crop.CellsPerTray);
            added.Add(new AddedBatch(
                FormattableString.Invariant($"NEW-{index + 1}"), crop, $"{crop.Name} ‘{variety.Name}’", trays, order.ReadyOn));
        }

        return added;
    }
}
