using Microsoft.EntityFrameworkCore;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Data;
using Nursery.Domain.Crops;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Crops;

/// <summary>How a crop's seed emerges: as published, or from the site's crop profile where nothing is published of it.</summary>
/// <param name="Name">Of the crop.</param>
/// <param name="Rate">By temperature of the mix.</param>
/// <param name="Curve">How it spreads.</param>
/// <param name="Published">The published crop; null when all is from the profile.</param>
public sealed record CropEmergenceFound(string Name, RateModel Rate, EmergenceCurve Curve, CropEmergence? Published);

/// <summary>Finds a crop by its published name, or by the code or name of a crop of ours, whatever the case.</summary>
public sealed class FindCropEmergence(IDbContextFactory<NurseryDbContext> databases)
{
    private const double QuickDays = 7;

    /// <exception cref="InvalidFields">No such crop.</exception>
    public async Task<CropEmergenceFound> HandleAsync(string crop, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        if (EmergenceDefaults.Find(crop) is { } published)
        {
            return Of(published.Name, published);
        }

        await using var database = await databases.CreateDbContextAsync(cancellation);
        var text = crop.Trim();
        var ours = (await database.Crops.AsNoTracking().ToListAsync(cancellation))
            .Where(row => row.Code.Equals(text, StringComparison.OrdinalIgnoreCase) || row.Name.Equals(text, StringComparison.OrdinalIgnoreCase))
            .MinBy(row => row.Code, StringComparer.Ordinal)
            ?? throw new InvalidFields("crop", crop, "a name of GET /api/v1/agronomy/crops or the code of a crop");
        return Of(ours);
    }

    /// <summary>Of a crop of ours: as published under its name, else from its profile.</summary>
    public static CropEmergenceFound Of(Crop crop) => EmergenceDefaults.Find(crop.Name) is { } named ? Of(crop.Name, named) : FromProfile(crop);

    private static CropEmergenceFound Of(string name, CropEmergence published) => new(name, published.Rate, published.Curve, published);

    private static CropEmergenceFound FromProfile(Crop crop) => new(
        crop.Name,
        RateModel.FromProfile(
            new Temperature(crop.GerminationMinC), new Temperature(crop.GerminationOptimumC), new Temperature(crop.GerminationMaxC),
            crop.DaysToEmergence),
        new EmergenceCurve(SpreadFamily.LogLogistic, crop.DaysToEmergence <= QuickDays ? EmergenceCurve.QuickSigma : EmergenceCurve.SlowSigma),
        null);
}
