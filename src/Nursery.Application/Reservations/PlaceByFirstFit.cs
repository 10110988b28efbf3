using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.People;
using Nursery.Domain.Reservations;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;
using Nursery.Planning;

namespace Nursery.Application.Reservations;

/// <summary>A tray set that first-fit gave no place, and why, in a sentence.</summary>
public sealed record NotPlaced(string TraySetCode, string BatchCode, string Why);

public sealed record FirstFitOutcome(int Placed, IReadOnlyList<NotPlaced> NotPlaced);

/// <summary>A tray set that first-fit gave a place: on heat from its sowing day, then on a bench.</summary>
public sealed record PlacedTraySet(
    Guid BatchId, string BatchCode, string TraySetCode, string HeatBench, string HeatSpaces, LocalDate SowOn,
    string Bench, string BenchSpaces, LocalDate MoveOffOn, LocalDate GoneOn);

/// <summary>What was placed where, and what not and why.</summary>
public sealed record FirstFitReport(IReadOnlyList<PlacedTraySet> Placed, IReadOnlyList<NotPlaced> NotPlaced);

/// <summary>Gives all trays of planned batches without a place one by first-fit: on heat from the sowing day, then on a bench of
/// their band. Trays that batches share are placed as one.</summary>
public sealed class PlaceByFirstFit(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public async Task<FirstFitOutcome> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        var report = await PlaceAsync(null, actor, cancellation);
        return new FirstFitOutcome(report.Placed.Count, report.NotPlaced);
    }

    /// <summary>Tray sets without a place, in the order they are placed in.</summary>
    internal async Task<IReadOnlyList<(Id<TraySet> TraySet, string BatchCode)>> WaitingAsync(Actor actor, CancellationToken cancellation)
    {
        await using var database = await databases.CreateDbContextAsync(cancellation);
        return [.. (await UnplacedAsync(database, actor, null, cancellation)).Select(row => (row.TraySet.Id, row.Codes))];
    }

    /// <param name="some">Only these tray sets, of those that have no place by then; null is all.</param>
    internal Task<FirstFitReport> PlaceAsync(IReadOnlyList<Id<TraySet>>? some, Actor actor, CancellationToken cancellation) =>
        databases.RunAsync(database => PlaceAsync(database, some, actor, cancellation), cancellation);

    private async Task<FirstFitReport> PlaceAsync(
        NurseryDbContext database, IReadOnlyList<Id<TraySet>>? some, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var benchIds = await database.Benches.Where(bench => bench.SiteId == actor.SiteId && bench.RetiredOn == null)
            .Select(bench => bench.Id).ToListAsync(cancellation);
        var benches = (await database.LockBenchesAsync(benchIds, cancellation)).ToDictionary(bench => bench.Id);
        var unplaced = await UnplacedAsync(database, actor, some, cancellation);
        var (ahead, missed) = (unplaced.Where(row => row.SowOn >= today).ToList(),
            unplaced.Where(row => row.SowOn < today).ToList());
        var result = FirstFit.Place(
            [.. ahead.Select(row => row.AsPlan())],
            await PlanBenchesAsync(database, benches, cancellation),
            await HeldAsync(database, benchIds, today, cancellation));
        var byTraySet = ahead.ToDictionary(row => row.TraySet.Id.Value);
        foreach (var placed in result.Placed)
        {
            foreach (var hold in new[] { placed.Heat, placed.Bench })
            {
                var reservation = Reserve(byTraySet[placed.Batch.Id].TraySet, benches[new Id<Bench>(hold.BenchId)], hold);
                database.Reservations.Add(reservation);
                database.Write(site, actor, time, reservation.AsEntry(), traySet: reservation.TraySetId, bench: reservation.BenchId);
            }
        }

        await database.SaveChangesAsync(cancellation);
        var refused = result.Unplaced.Select(row => NotPlaced(byTraySet[row.Batch.Id], row.Why, site.Units))
            .Concat(missed.Select(row => new NotPlaced(
                row.TraySet.Code, row.Codes, $"Its sowing day, {Day(row.SowOn)}, is past: sow it or give it another day first")));
        return new FirstFitReport([.. result.Placed.Select(row => Placed(byTraySet[row.Batch.Id], row, benches))], [.. refused]);
    }

    /// <summary>Tray sets with planned batches only that hold no spaces: a batch's own, or one that several share.</summary>
    private static async Task<List<UnplacedRow>> UnplacedAsync(
        NurseryDbContext database, Actor actor, IReadOnlyList<Id<TraySet>>? some, CancellationToken cancellation)
    {
        var rows = await (
            from batch in database.Batches
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            join share in database.TrayShares on batch.Id equals share.BatchId
            join traySet in database.TraySets on share.TraySetId equals traySet.Id
            where batch.SiteId == actor.SiteId
                && batch.State.Stage != BatchStage.HandedOver
                && batch.State.Stage != BatchStage.Discarded
                && !database.Reservations.Any(row => row.TraySetId == traySet.Id)
                && (some == null || some.Contains(traySet.Id))
            select new { Batch = batch, Crop = crop, TraySet = traySet, share.FirstRow }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.GroupBy(row => row.TraySet.Id)
                .Where(group => group.All(row => row.Batch.State.Stage == BatchStage.Planned))
                .Select(group => new UnplacedRow(
                    [.. group.OrderBy(row => row.FirstRow).Select(row => new UnplacedBatchRow(row.Batch, row.Crop))], group.First().TraySet))
                .OrderBy(row => row.SowOn).ThenBy(row => row.Batches.Min(batch => batch.Batch.Id)),
        ];
    }

    private static async Task<IReadOnlyList<PlanBench>> PlanBenchesAsync(
        NurseryDbContext database, Dictionary<Id<Bench>, Bench> benches, CancellationToken cancellation)
    {
        var houses = await database.Houses.ToDictionaryAsync(house => house.Id, house => house.RoundOrder, cancellation);
        var zones = (await database.HeatZones.AsNoTracking().ToListAsync(cancellation)).ToLookup(zone => zone.BenchId);
        var spans = (await database.ZoneSetpoints.AsNoTracking().ToListAsync(cancellation)).ToLookup(span => span.ZoneId);
        var ordered = benches.Values.OrderBy(bench => houses[bench.HouseId]).ThenBy(bench => bench.RoundOrder);
        return
        [
            .. ordered.SelectMany(bench => bench.Kind == BenchKind.Germination
                ? zones[bench.Id].OrderBy(zone => zone.Spaces.First).Select(zone => new PlanBench(
                    bench.Id.Value, BenchUse.Heat, zone.Spaces.First, zone.Spaces.Count, zone.SetpointC,
                    [.. spans[zone.Id].Select(span => (
                        span.Days.Start.ToDateOnly(), span.Days.End.PlusDays(1).ToDateOnly(), span.SetpointC))]))
                : [new PlanBench(bench.Id.Value, UseOf(bench), 1, bench.Capacity)]),
        ];
    }

    private static async Task<IEnumerable<Held>> HeldAsync(
        NurseryDbContext database, List<Id<Bench>> benches, LocalDate today, CancellationToken cancellation) =>
        (await HeldSpaces.OnAsync(database, benches, today, today.PlusYears(12), cancellation)).Select(hold => hold.AsHeld());

    private Reservation Reserve(TraySet traySet, Bench bench, Held hold) => new()
    {
        Id = NewId.Of<Reservation>(time),
        SiteId = traySet.SiteId,
        TraySetId = traySet.Id,
        Trays = new SpaceRun(1, traySet.Trays),
        BenchId = bench.Id,
        Capacity = bench.Capacity,
        Spaces = new SpaceRun(hold.FirstSpace, hold.Spaces),
        Days = new DateInterval(LocalDate.FromDateOnly(hold.From), LocalDate.FromDateOnly(hold.To).PlusDays(-1)),
    };

    private static PlacedTraySet Placed(UnplacedRow row, PlacedBatch placed, Dictionary<Id<Bench>, Bench> benches) => new(
        row.Batches[0].Batch.Id.Value,
        row.Codes,
        row.TraySet.Code,
        benches[new Id<Bench>(placed.Heat.BenchId)].Code,
        new SpaceRun(placed.Heat.FirstSpace, placed.Heat.Spaces).ToString(),
        row.SowOn,
        benches[new Id<Bench>(placed.Bench.BenchId)].Code,
        new SpaceRun(placed.Bench.FirstSpace, placed.Bench.Spaces).ToString(),
        row.MoveOffOn,
        row.GoneOn);

    private static BenchUse UseOf(Bench bench) => bench switch
    {
        { Kind: BenchKind.Hardening } => BenchUse.Hardening,
        { Band: Band.Cool } => BenchUse.Cool,
        _ => BenchUse.Warm,
    };

    private static NotPlaced NotPlaced(UnplacedRow row, WhyUnplaced why, Units units)
    {
        var spaces = row.TraySet.SpacesFor(row.TraySet.Trays);
        var crops = string.Join(" and ", row.Batches.Select(batch => batch.Crop.Name).Distinct());
        var needs = row.Batches.Count == 1 ? $"{crops} needs" : $"{crops} in one tray need";
        var band = row.Band.ToString().ToLowerInvariant();
        var sentence = why switch
        {
            WhyUnplaced.NoZoneSuits =>
                $"No zone is set between {Degrees.Of(row.MinC, units)} and {Degrees.Of(row.MaxC, units)}, as {needs}",
            WhyUnplaced.ZonesFull => string.Create(
                CultureInfo.InvariantCulture,
                $"No zone that suits {crops} has {spaces} spaces in a row free from {Day(row.SowOn)} for {Period.DaysBetween(row.SowOn, row.MoveOffOn)} days"),
            WhyUnplaced.NoBenchOfBand => $"There is no {band} growing bench",
            WhyUnplaced.BenchesFull => string.Create(
                CultureInfo.InvariantCulture,
                $"No {band} bench has {spaces} spaces in a row free from {Day(row.MoveOffOn)} to {Day(row.GoneOn)}"),
            _ => throw new ArgumentOutOfRangeException(nameof(why), why, "a reason without a sentence"),
        };
        return new NotPlaced(row.TraySet.Code, row.Codes, sentence);
    }

    private static string Day(LocalDate day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    private sealed record UnplacedBatchRow(Batch Batch, Crop Crop)
    {
        public LocalDate MoveOffOn => Batch.SowOn.PlusDays(Crop.PlannedHeatDays);
    }

    /// <summary>Trays that stand as one: on heat from the first sowing until the last batch in them may leave it.</summary>
    private sealed record UnplacedRow(IReadOnlyList<UnplacedBatchRow> Batches, TraySet TraySet)
    {
        public string Codes => string.Join(", ", Batches.Select(row => row.Batch.Code));

        public LocalDate SowOn => Batches.Min(row => row.Batch.SowOn);

        public LocalDate MoveOffOn => Batches.Max(row => row.MoveOffOn);

        /// <summary>Trays stand until the day after the last of them is ready.</summary>
        public LocalDate GoneOn => LocalDate.Max(Batches.Max(row => row.Batch.ReadyOn).PlusDays(1), MoveOffOn.PlusDays(1));

        public decimal MinC => Batches.Max(row => row.Crop.GerminationMinC);

        public decimal MaxC => Batches.Min(row => row.Crop.GerminationMaxC);

        /// <summary>Who shares trays grows on in the same band.</summary>
        public Band Band => Batches[0].Crop.GrowOnBand;

        public PlanBatch AsPlan() => new(
            TraySet.Id.Value,
            Batches.Min(row => row.Batch.Id).Value,
            TraySet.SpacesFor(TraySet.Trays),
            MinC,
            MaxC,
            Band == Band.Cool ? BenchUse.Cool : BenchUse.Warm,
            SowOn.ToDateOnly(),
            MoveOffOn.ToDateOnly(),
            GoneOn.ToDateOnly());
    }
}
