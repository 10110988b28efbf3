using Microsoft.EntityFrameworkCore;
using Nursery.Agronomy.Emergence;
using Nursery.Data;
using Nursery.Domain.People;

namespace Nursery.Application.Crops;

/// <summary>A crop the computations know.</summary>
/// <param name="Name">As it may be asked for.</param>
/// <param name="Code">Of our own crop of that name; null where we have none.</param>
/// <param name="IsPublished">Its emergence is fitted to a published table; else it is from the crop profile.</param>
public sealed record CropNameItem(string Name, string? Code, bool IsPublished);

/// <summary>Published crops and our own, by name.</summary>
public sealed class ListCropNames(IDbContextFactory<NurseryDbContext> databases)
{
    public async Task<IReadOnlyList<CropNameItem>> HandleAsync(Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var ours = await database.Crops.AsNoTracking().Select(crop => new { crop.Code, crop.Name }).ToListAsync(cancellation);
        var published = EmergenceDefaults.All.Select(crop => new CropNameItem(
            crop.Name, ours.FirstOrDefault(row => row.Name.Equals(crop.Name, StringComparison.OrdinalIgnoreCase))?.Code, true));
        var others = ours.Where(row => EmergenceDefaults.Find(row.Name) is null).Select(row => new CropNameItem(row.Name, row.Code, false));
        return [.. published.Concat(others).OrderBy(crop => crop.Name, StringComparer.Ordinal).ThenBy(crop => crop.Code, StringComparer.Ordinal)];
    }
}
