using Microsoft.EntityFrameworkCore;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Crops;

/// <summary>A variety in use with what its crop's profile says of a sowing. Temperatures in °C.</summary>
public sealed record VarietyItem(
    string Code,
    string Name,
    string CropCode,
    string CropName,
    int CellsPerTray,
    int SeedsPerCell,
    int DaysToReady,
    int PlannedHeatDays,
    decimal GerminationMinC,
    decimal GerminationMaxC);

/// <summary>The varieties in use, by crop and name.</summary>
public sealed class ListVarieties(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<IReadOnlyList<VarietyItem>> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var rows = await (
            from variety in database.Varieties
            join crop in database.Crops on variety.CropId equals crop.Id
            where variety.RetiredOn == null
            select new { variety.Code, variety.Name, crop }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.OrderBy(row => row.crop.Name, StringComparer.Ordinal).ThenBy(row => row.Name, StringComparer.Ordinal)
                .Select(row => new VarietyItem(
                    row.Code, row.Name, row.crop.Code, row.crop.Name, row.crop.CellsPerTray, row.crop.SeedsPerCell,
                    row.crop.DaysToReady, row.crop.PlannedHeatDays, row.crop.GerminationMinC, row.crop.GerminationMaxC)),
        ];
    }
}
