using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Germination;

/// <summary>Batches with a count and all that is counted of them, in four queries however many there are.</summary>
internal static class CountedBatches
{
    public static Task<List<GerminatedBatch>> LoadAsync(
        NurseryDbContext database, Id<Site> site, LocalDate? from, LocalDate? to, CancellationToken cancellation) =>
        LoadAsync(database, site, from, to, withCounts: true, cancellation);

    /// <summary>The same with no list of counts: what the one that says most found, which is enough for rates.</summary>
    public static Task<List<GerminatedBatch>> LoadRatesAsync(
        NurseryDbContext database, Id<Site> site, LocalDate? from, LocalDate? to, CancellationToken cancellation) =>
        LoadAsync(database, site, from, to, withCounts: false, cancellation);

    private static async Task<List<GerminatedBatch>> LoadAsync(
        NurseryDbContext database, Id<Site> site, LocalDate? from, LocalDate? to, bool withCounts, CancellationToken cancellation)
    {
        var chosen = database.Batches.AsNoTracking().Where(batch => batch.SiteId == site
            && batch.State.CountedSeeds > 0
            && (from == null || batch.State.SownOn >= from)
            && (to == null || batch.State.SownOn < to));
        var rows = await (
            from batch in chosen
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            from lot in database.SeedLots.Where(row => row.Id == batch.LotId).DefaultIfEmpty()
            select new
            {
                batch.Id,
                batch.Code,
                SownOn = batch.State.SownOn!.Value,
                batch.State.CountedOn,
                Seeds = batch.State.CountedSeeds!.Value,
                Up = batch.State.CountedUp!.Value,
                CropCode = crop.Code,
                CropName = crop.Name,
                VarietyCode = variety.Code,
                VarietyName = variety.Name,
                LotCode = lot == null ? null : lot.Code,
                Label = lot == null ? (decimal?)null : lot.LabelGermination,
            }).ToListAsync(cancellation);
        var undone = await UndoneAsync(database, site, cancellation);
        var counts = withCounts ? await CountsAsync(database, chosen, undone, cancellation) : [];
        var houses = await FirstHousesAsync(database, chosen, undone, cancellation);
        return rows.ConvertAll(row => new GerminatedBatch
        {
            Id = row.Id.Value,
            Code = row.Code,
            CropCode = row.CropCode,
            CropName = row.CropName,
            VarietyCode = row.VarietyCode,
            VarietyName = row.VarietyName,
            LotCode = row.LotCode,
            LabelFraction = row.Label,
            HouseCode = houses.TryGetValue(row.Id, out var house) ? house.Code : null,
            HouseName = houses.TryGetValue(row.Id, out house) ? house.Name : null,
            SownOn = row.SownOn,
            CountedOn = row.CountedOn,
            Seeds = row.Seeds,
            Emerged = row.Up,
            Counts = counts.GetValueOrDefault(row.Id) ?? [],
        });
    }

    /// <summary>What is taken back on the site. An undo names only that, not the batch.</summary>
    internal static async Task<HashSet<Id<LedgerEntry>>> UndoneAsync(
        NurseryDbContext database, Id<Site> site, CancellationToken cancellation) =>
    [
        .. await database.Ledger.Where(entry => entry.SiteId == site && entry.UndoOf != null)
            .Select(entry => entry.UndoOf!.Value).ToListAsync(cancellation),
    ];

    private static async Task<Dictionary<Id<Batch>, IReadOnlyList<EmergenceCount>>> CountsAsync(
        NurseryDbContext database, IQueryable<Batch> batches, HashSet<Id<LedgerEntry>> undone, CancellationToken cancellation)
    {
        // Of what was done only the thinning matters, and it is the one of its day; what was sent is long and not looked at.
        var entries = await (
            from batch in batches
            join entry in database.Ledger on batch.Id equals entry.BatchId
            where entry.Kind == LedgerKind.Count || entry.Kind == LedgerKind.NotYet
                || (entry.Kind == LedgerKind.Done && entry.Day == batch.State.ThinnedOn)
            select new LedgerEntry
            {
                Id = entry.Id,
                SiteId = entry.SiteId,
                BatchId = entry.BatchId,
                CausedBy = entry.CausedBy,
                WhoId = entry.WhoId,
                WhoName = entry.WhoName,
                HappenedAt = entry.HappenedAt,
                DeviceSkewMs = entry.DeviceSkewMs,
                RecordedAt = entry.RecordedAt,
                Day = entry.Day,
                Kind = entry.Kind,
                Value = entry.Value,
            }).ToListAsync(cancellation);
        return entries.Where(entry => !undone.Contains(entry.Id) && !(entry.CausedBy is { } cause && undone.Contains(cause)))
            .GroupBy(entry => entry.BatchId!.Value)
            .ToDictionary(group => group.Key, group => EmergenceCounts.Of([.. group]));
    }

    private static async Task<Dictionary<Id<Batch>, (string Code, string Name)>> FirstHousesAsync(
        NurseryDbContext database, IQueryable<Batch> batches, HashSet<Id<LedgerEntry>> undone, CancellationToken cancellation)
    {
        var placements = await (
            from batch in batches
            join share in database.TrayShares on batch.Id equals share.BatchId
            join entry in database.Ledger on (Id<TraySet>?)share.TraySetId equals entry.TraySetId
            join bench in database.Benches on entry.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where entry.Kind == LedgerKind.Placed || entry.Kind == LedgerKind.Moved
            select new { Batch = batch.Id, entry.Id, entry.CausedBy, entry.HappenedAt, house.Code, house.Name }).ToListAsync(cancellation);
        return placements
            .Where(row => !undone.Contains(row.Id) && !(row.CausedBy is { } cause && undone.Contains(cause)))
            .GroupBy(row => row.Batch)
            .ToDictionary(
                group => group.Key,
                group => group.OrderBy(row => row.HappenedAt).ThenBy(row => row.Id).Select(row => (row.Code, row.Name)).First());
    }
}
