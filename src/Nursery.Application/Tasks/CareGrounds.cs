using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Tasks;

namespace Nursery.Application.Tasks;

/// <summary>Where batches grow and with what, for their watering and feeding, in four queries however many there are.</summary>
internal static class CareGrounds
{
    /// <summary>Of one batch, as the ledger has it on a day.</summary>
    public static async Task<CareGround> LoadAsync(
        NurseryDbContext database, Batch batch, int cellsPerTray, LocalDate day, CancellationToken cancellation)
    {
        var marks = await SurfaceMarks.OfBatchesAsync(database, [batch], day, cancellation);
        return (await LoadAsync(database, [batch], new() { [batch.Id] = cellsPerTray }, marks, day, cancellation))[batch.Id];
    }

    /// <param name="database">The open transaction.</param>
    /// <param name="batches">Of any sites.</param>
    /// <param name="cells">Cells of the trays each lies in.</param>
    /// <param name="marks">Of their benches.</param>
    /// <param name="today">The site's day.</param>
    /// <param name="cancellation">Cancels.</param>
    public static async Task<IReadOnlyDictionary<Id<Batch>, CareGround>> LoadAsync(
        NurseryDbContext database,
        IReadOnlyCollection<Batch> batches,
        Dictionary<Id<Batch>, int> cells,
        IReadOnlyDictionary<Id<Batch>, IReadOnlyList<SurfaceMark>> marks,
        LocalDate today,
        CancellationToken cancellation)
    {
        var ids = batches.Select(batch => batch.Id).ToList();
        var siteIds = batches.Select(batch => batch.SiteId).Distinct().ToList();
        var sites = await database.Sites.AsNoTracking().Where(site => siteIds.Contains(site.Id)).ToDictionaryAsync(site => site.Id, cancellation);

        // Trays may stand in two houses; the one with the lower code says, so that everyone reckons alike.
        var houses = (await (
            from share in database.TrayShares
            join standing in database.Standings on share.TraySetId equals standing.TraySetId
            join bench in database.Benches on standing.BenchId equals bench.Id
            join house in database.Houses on bench.HouseId equals house.Id
            where ids.Contains(share.BatchId)
            select new { share.BatchId, house.Code, house.CoverShare, house.AirC }).Distinct().ToListAsync(cancellation))
            .GroupBy(row => row.BatchId)
            .ToDictionary(rows => rows.Key, rows => rows.MinBy(row => row.Code, StringComparer.Ordinal));
        var marked = marks.Keys.Select(id => id.Value).ToList();
        var from = today.PlusDays(-CareGround.LearnDays - 1);
        var watered = marked.Count == 0
            ? null
            : (await database.Tasks.AsNoTracking()
                .Where(task => marked.Contains(task.SubjectId) && task.State == TaskState.Done && task.DoneOn >= from
                    && (task.Kind == TaskKind.Water || task.Kind == TaskKind.FirstWatering))
                .Select(task => new { task.SubjectId, On = task.DoneOn!.Value }).ToListAsync(cancellation)).ToLookup(task => task.SubjectId, task => task.On);
        return batches.Where(batch => cells.ContainsKey(batch.Id)).ToDictionary(batch => batch.Id, batch =>
        {
            var (site, house) = (sites[batch.SiteId], houses.GetValueOrDefault(batch.Id));
            return new CareGround(
                cells[batch.Id], site.Latitude, house?.CoverShare, house?.AirC, [.. watered?[batch.Id.Value] ?? []],
                marks.GetValueOrDefault(batch.Id) ?? [], site.InjectorRatio, site.FeedNitrogenPercent);
        });
    }
}
