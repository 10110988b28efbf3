using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Ledger;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Tasks;

/// <summary>How the benches were last seen on which batches stand.</summary>
internal static class SurfaceMarks
{
    /// <summary>Older marks say nothing of today's water; they still teach how the bench dries.</summary>
    private const int OldestDays = 7;

    /// <summary>How it was last seen; null when that is too long ago.</summary>
    public static SurfaceMark? Last(IReadOnlyList<SurfaceMark> marks, LocalDate today) =>
        marks is [.., var last] && last.Day >= today.PlusDays(-OldestDays) ? last : null;

    /// <summary>In the order they were made.</summary>
    public static async Task<IReadOnlyDictionary<Id<Batch>, IReadOnlyList<SurfaceMark>>> OfBatchesAsync(
        NurseryDbContext database, IReadOnlyCollection<Batch> batches, LocalDate today, CancellationToken cancellation)
    {
        var watered = batches.Where(batch => batch.State.WateredOn is not null).ToList();
        var sites = watered.Select(batch => batch.SiteId).Distinct().ToList();
        var from = today.PlusDays(-CareGround.LearnDays);
        var entries = await database.Ledger.AsNoTracking()
            .Where(entry => sites.Contains(entry.SiteId)
                && entry.Kind == LedgerKind.Surface
                && entry.Day >= from
                && entry.Day <= today
                && !database.Ledger.Any(undo => undo.UndoOf == entry.Id && undo.SiteId == entry.SiteId))
            .ToListAsync(cancellation);
        if (entries.Count == 0)
        {
            return new Dictionary<Id<Batch>, IReadOnlyList<SurfaceMark>>();
        }

        var order = LedgerOrder.Effective(entries).Select((entry, at) => (entry, at)).ToLookup(row => row.entry.BenchId);
        var ids = watered.ConvertAll(batch => batch.Id);
        var stands = await (
            from share in database.TrayShares
            join standing in database.Standings on share.TraySetId equals standing.TraySetId
            where ids.Contains(share.BatchId)
            select new { share.BatchId, standing.BenchId }).Distinct().ToListAsync(cancellation);
        return stands
            .SelectMany(stand => order[stand.BenchId].Select(row => (stand.BatchId, row.entry, row.at)))
            .GroupBy(row => row.BatchId)
            .ToDictionary(rows => rows.Key, rows => (IReadOnlyList<SurfaceMark>)[.. rows.OrderBy(row => row.at).Select(row => MarkOf(row.entry))]);
    }

    /// <summary>The batches whose water a mark on a bench may change.</summary>
    public static Task<List<Id<Batch>>> BatchesOnAsync(NurseryDbContext database, Id<Bench> bench, CancellationToken cancellation) => (
        from standing in database.Standings
        join share in database.TrayShares on standing.TraySetId equals share.TraySetId
        where standing.BenchId == bench
        select share.BatchId).Distinct().ToListAsync(cancellation);

    private static SurfaceMark MarkOf(LedgerEntry entry) => new(((Surface)entry.Value).State, entry.Day);
}
