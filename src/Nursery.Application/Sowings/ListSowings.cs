using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Batches;
using Nursery.Application.Computed;
using Nursery.Application.Forecasts;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Crops;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Sowings;

/// <summary>A batch to sow, with all one needs at the sowing bench.</summary>
/// <param name="Cells">Of the batch; fewer than its trays have when it shares them.</param>
/// <param name="SeedsToTake">Cells times seeds a cell.</param>
/// <param name="Where">Bench and spaces on the sowing day by plan; null without a place.</param>
/// <param name="SownOn">Null while it is to be sown.</param>
public sealed record SowingItem(
    Guid BatchId, string BatchCode, string CropName, string VarietyName, string? LotCode, bool Treated, int? StockSeeds, int Trays,
    int CellsPerTray, int Cells, bool Shared, int SeedsPerCell, long SeedsToTake, decimal DepthMm, LightNeed Light, SowingPlace? Where,
    LocalDate SowOn, LocalDate? SownOn)
{
    /// <summary>Of seed to take; null without a lot.</summary>
    public double? Grams { get; init; }

    /// <summary>Grams in stock; null without a lot.</summary>
    public double? StockGrams { get; init; }

    /// <summary>Growing mix for its cells, liters; null for trays nobody knows the cells of.</summary>
    public double? MixLiters { get; init; }

    /// <summary>Plants its orders want; 0 when none names it.</summary>
    public int Wanted { get; init; }

    /// <summary>That they come, 0–1; null once it is sown and where no order names it.</summary>
    public double? Chance { get; init; }

    /// <summary>Whether a short stand would show in time; null once it is sown and where no order waits.</summary>
    public SowingRisk? Risk { get; init; }

    /// <summary>One tray more, where a short stand could not be known in time; null where it could.</summary>
    public SownCells? Insurance { get; init; }

    /// <summary>Whether that tray saves more on average than it costs; null with it, and for clumps, whose plants nobody counts as missing one by one.</summary>
    public bool? TrayPays => Insurance is null || !KeepsOne ? null : Risk!.TraySaves > 0;

    /// <summary>One plant is kept in a cell.</summary>
    internal bool KeepsOne { get; init; }

    /// <summary>In the order to read them; none once it is sown.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <summary>How its numbers came to be; none once it is sown.</summary>
    public IReadOnlyList<How> How { get; init; } = [];
}

public sealed record SowingPlace(string BenchCode, string Spaces);

/// <param name="Currency">Of costs.</param>
/// <param name="Late">To be sown before the first day and not sown; only when the days hold today.</param>
/// <param name="LateMix">For those; null when nothing is late.</param>
/// <param name="Days">By planned sowing day, days without a sowing left out.</param>
public sealed record SowingList(
    LocalDate From, LocalDate To, LocalDate Today, Units Units, string Currency, IReadOnlyList<SowingItem> Late, MixNeed? LateMix,
    IReadOnlyList<SowingDayList> Days);

/// <summary>The sowings of a day.</summary>
/// <param name="Mix">For those not sown yet; null when all are.</param>
public sealed record SowingDayList(LocalDate Day, IReadOnlyList<SowingItem> Items, MixNeed? Mix);

/// <summary>What is to be sown on some days: this week when none are named.</summary>
public sealed class ListSowings(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    private const int MostDays = 366;

    /// <param name="from">Null is the Monday of this week (weeks as in ISO 8601).</param>
    /// <param name="to">The last day; null is six days later.</param>
    /// <exception cref="InvalidFields">The days are not in order, or too many.</exception>
    public async Task<SowingList> HandleAsync(
        LocalDate? from, LocalDate? to, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var today = site.Today(time);
        var first = from ?? MondayOf(today);
        var last = to ?? first.PlusDays(6);
        if (last < first || Period.DaysBetween(first, last) >= MostDays)
        {
            throw new InvalidFields("to", Iso(last), $"{Iso(first)} (from) to {Iso(first.PlusDays(MostDays - 1))}");
        }

        var includesLate = first <= today && today <= last;
        var rows = (await database.BatchRows(site.Id).AsNoTracking()
            .Where(row => row.Batch.State.Stage != BatchStage.Discarded && row.Batch.SowOn <= last
                && (row.Batch.SowOn >= first || (includesLate && row.Batch.State.Stage == BatchStage.Planned)))
            .ToListAsync(cancellation)).DistinctBy(row => row.Batch.Id).ToDictionary(row => row.Batch.Id.Value);
        var mix = await MixNeeds.LoadAsync(database, site, cancellation);
        var items = await ItemsAsync(database, site, rows, mix, cancellation);
        var late = items.Where(item => item.SowOn < first).ToList();
        return new SowingList(
            first,
            last,
            today,
            site.Units,
            site.Currency,
            late,
            MixOf(late),
            [.. items.Where(item => item.SowOn >= first).GroupBy(item => item.SowOn)
                .Select(day => new SowingDayList(day.Key, [.. day], MixOf(day)))]);

        MixNeed? MixOf(IEnumerable<SowingItem> some) => mix.Of([.. some.Where(item => item.SownOn is null).Select(item => rows[item.BatchId])]);
    }

    public static LocalDate MondayOf(LocalDate day) => day.PlusDays(1 - (int)day.DayOfWeek);

    private async Task<List<SowingItem>> ItemsAsync(
        NurseryDbContext database, Site site, Dictionary<Guid, BatchRow> rows, MixNeeds mix, CancellationToken cancellation)
    {
        var traySets = rows.Values.Select(row => row.TraySet.Id).ToHashSet();
        var places = await PlacesAsync(database, traySets, cancellation);
        var shared = (await database.TrayShares.Where(share => traySets.Contains(share.TraySetId))
            .GroupBy(share => share.TraySetId).Where(group => group.Count() > 1).Select(group => group.Key)
            .ToListAsync(cancellation)).ToHashSet();
        var open = rows.Values.Where(row => row.Batch.State.SownOn is null).ToList();
        var wishes = await SowingWishes.LoadAsync(database, open, cancellation);
        var (ground, risks) = await SowingGround.LoadWithRisksAsync(database, site, open, time, cancellation);
        return
        [
            .. rows.Values.Select(row => ItemOf(row, shared.Contains(row.TraySet.Id), places[row.TraySet.Id]) with
                {
                    Grams = row.Lot is null ? null : row.Batch.Cells * row.Batch.SeedsPerCell / (double)row.Lot.SeedsPerGram,
                    StockGrams = row.Lot is null ? null : row.Lot.StockSeeds / (double)row.Lot.SeedsPerGram,
                    MixLiters = mix.LitersOf(row),
                })
                .Select(item => item.SownOn is null
                    ? Judged(item, rows[item.BatchId], ground, wishes, risks.GetValueOrDefault(item.BatchId), site.Units)
                    : item)
                .OrderBy(item => item.SowOn).ThenBy(item => item.CropName, StringComparer.Ordinal)
                .ThenBy(item => item.VarietyName, StringComparer.Ordinal).ThenBy(item => item.BatchCode, StringComparer.Ordinal),
        ];
    }

    private static SowingItem Judged(
        SowingItem item, BatchRow row, SowingGround ground, SowingWishes wishes, SowingRisk? risk, Units units)
    {
        var wish = wishes.Of(row);
        var sowing = wish is null ? null : ground.Of(wish);
        return item with
        {
            Wanted = wish?.Plants ?? 0,
            Chance = sowing?.Chance(row.Batch.SeedsPerCell, row.Batch.Cells),
            Risk = risk,
            Insurance = risk is { KnownInTime: false } ? sowing?.CellsOf(row.Batch.SeedsPerCell, row.Batch.Cells, row.TraySet.CellsPerTray) : null,
            KeepsOne = sowing?.Terms.Keep.High == 1,
            Warnings = SowingWarnings.Of(row, ground, wish, sowing, units),
            How = [.. new[] { sowing?.How, sowing?.GramsHow(item.SeedsToTake), sowing?.Terms.Keep.High == 1 ? risk?.How : null }.OfType<How>()],
        };
    }

    private static SowingItem ItemOf(BatchRow row, bool shared, IEnumerable<(DateInterval Days, SowingPlace Place)> places) => new(
        row.Batch.Id.Value, row.Batch.Code, row.Crop.Name, row.Variety.Name, row.Lot?.Code, row.Lot?.Treated == true, row.Lot?.StockSeeds,
        row.TraySet.Trays, row.TraySet.CellsPerTray, row.Batch.Cells, shared, row.Batch.SeedsPerCell,
        (long)row.Batch.Cells * row.Batch.SeedsPerCell, row.Crop.DepthMm, row.Crop.Light,
        places.Where(place => place.Days.Contains(row.Batch.SowOn)).Select(place => place.Place).FirstOrDefault(),
        row.Batch.SowOn, row.Batch.State.SownOn);

    /// <summary>Places by plan, those on heat first: sown trays go there when the plan holds two.</summary>
    private static async Task<ILookup<Id<TraySet>, (DateInterval Days, SowingPlace Place)>> PlacesAsync(
        NurseryDbContext database, HashSet<Id<TraySet>> traySets, CancellationToken cancellation)
    {
        var rows = await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            where traySets.Contains(reservation.TraySetId)
            select new { reservation, bench.Code, bench.Kind }).AsNoTracking().ToListAsync(cancellation);
        return rows.OrderBy(row => row.Kind).ThenBy(row => row.reservation.Days.Start).ThenBy(row => row.reservation.Id)
            .ToLookup(row => row.reservation.TraySetId, row => (row.reservation.Days, new SowingPlace(row.Code, row.reservation.Spaces.ToString())));
    }

    private static string Iso(LocalDate day) => day.ToString("uuuu-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}
