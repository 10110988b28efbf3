using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Start;

/// <summary>Trays that stand although the plan has no more days for them; <paramref name="Until"/> is the last day it had.</summary>
public sealed record Overstaying(Guid BatchId, string BatchCode, string CropName, string VarietyName, string BenchCode, LocalDate Until);

internal static class Overstays
{
    public static async Task<IReadOnlyList<Overstaying>> LoadAsync(
        NurseryDbContext database, Actor actor, LocalDate today, CancellationToken cancellation)
    {
        var rows = await database.StandingRows(actor.SiteId)
            .Select(row => new { row.Standing.TraySetId, row.Batch.Id, row.Batch.Code, Crop = row.Crop.Name, Variety = row.Variety.Name, Bench = row.Bench.Code })
            .ToListAsync(cancellation);
        var sets = rows.Select(row => row.TraySetId).Distinct().ToList();
        var until = (await database.Reservations.Where(row => sets.Contains(row.TraySetId))
            .Select(row => new { row.TraySetId, row.Days }).AsNoTracking().ToListAsync(cancellation))
            .GroupBy(row => row.TraySetId).ToDictionary(row => row.Key, row => row.Max(held => held.Days.End));
        return
        [
            .. rows.DistinctBy(row => (row.Id, row.Bench))
                .Where(row => until.TryGetValue(row.TraySetId, out var last) && last < today)
                .Select(row => new Overstaying(row.Id.Value, row.Code, row.Crop, row.Variety, row.Bench, until[row.TraySetId]))
                .OrderBy(row => row.Until).ThenBy(row => row.BatchCode, StringComparer.Ordinal),
        ];
    }
}
