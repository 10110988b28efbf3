using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Agronomy;
using Nursery.Application.Batches;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Germination;

public enum GerminationKey
{
    Crop,
    Variety,
    Lot,

    /// <summary>The house where the trays first stood.</summary>
    House,
}

/// <summary>How seed came up, for one crop, variety, lot or house. <paramref name="Seeds"/> are those of the counted cells;
/// fraction 0–1; <paramref name="FractionSpread"/> is the standard deviation between batches, null for one batch.</summary>
public sealed record GerminationItem(
    string Key, string Name, int Batches, long Seeds, decimal Emerged, decimal Fraction, double? FractionSpread);

/// <summary>Emergence over the batches sown in a span of days and counted at least once.</summary>
public sealed class GerminationByKey(IDbContextFactory<NurseryDbContext> databases)
{
    /// <param name="by">What to group by.</param>
    /// <param name="from">First sowing day; null from the beginning.</param>
    /// <param name="to">First sowing day no longer counted; null to the end.</param>
    public async Task<IReadOnlyList<GerminationItem>> HandleAsync(
        GerminationKey by, LocalDate? from, LocalDate? to, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        if (from is { } first && to is { } end && end < first)
        {
            throw new InvalidFields("to", LocalDatePattern.Iso.Format(end), $"{LocalDatePattern.Iso.Format(first)} (from) or later");
        }

        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = await database.BatchRows(actor.SiteId).AsNoTracking()
            .Where(row => row.Batch.State.CountedSeeds > 0
                && (from == null || row.Batch.State.SownOn >= from)
                && (to == null || row.Batch.State.SownOn < to))
            .ToListAsync(cancellation);
        var houses = by == GerminationKey.House
            ? await HousesAsync(database, [.. rows.Select(row => row.TraySet.Id)], cancellation)
            : [];
        return
        [
            .. rows.DistinctBy(row => row.Batch.Id)
                .GroupBy(row => KeyOf(by, row, houses))
                .OrderBy(group => group.Key.Name, StringComparer.Ordinal)
                .Select(group => Item(group.Key, group)),
        ];
    }

    private static GerminationItem Item((string Key, string Name) key, IEnumerable<BatchRow> batches)
    {
        var rate = EmergenceRate.Of([.. batches.Select(row => (row.Batch.State.CountedSeeds!.Value, row.Batch.State.CountedUp!.Value))]);
        return new GerminationItem(key.Key, key.Name, rate.Batches, rate.Seeds, rate.Emerged, rate.Fraction, rate.Spread);
    }

    private static (string Key, string Name) KeyOf(
        GerminationKey by, BatchRow row, Dictionary<Id<TraySet>, (string Code, string Name)> houses) => by switch
        {
            GerminationKey.Crop => (row.Crop.Code, row.Crop.Name),
            GerminationKey.Variety => (row.Variety.Code, $"{row.Crop.Name} ‘{row.Variety.Name}’"),
            GerminationKey.Lot => (row.Lot?.Code ?? "", row.Lot is { } lot ? $"{lot.Code} {row.Crop.Name} ‘{row.Variety.Name}’" : "no lot"),
            GerminationKey.House => houses.GetValueOrDefault(row.TraySet.Id, ("", "no house known")),
            _ => throw new ArgumentOutOfRangeException(nameof(by), by, "a key without a rule"),
        };

    private static async Task<Dictionary<Id<TraySet>, (string Code, string Name)>> HousesAsync(
        NurseryDbContext database, List<Id<TraySet>> traySets, CancellationToken cancellation)
    {
        var placements = await (
            from entry in database.Ledger
            join bench in database.Benches on entry.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where entry.TraySetId != null && traySets.Contains(entry.TraySetId.Value)
                && (entry.Kind == Domain.Ledger.LedgerKind.Placed || entry.Kind == Domain.Ledger.LedgerKind.Moved)
                && !database.Ledger.Any(undo => undo.UndoOf != null && undo.SiteId == entry.SiteId
                    && (undo.UndoOf == entry.Id || undo.UndoOf == entry.CausedBy))
            orderby entry.HappenedAt, entry.Id
            select new { TraySet = entry.TraySetId!.Value, house.Code, house.Name }).ToListAsync(cancellation);
        return placements.GroupBy(row => row.TraySet)
            .ToDictionary(group => group.Key, group => (group.First().Code, group.First().Name));
    }
}
