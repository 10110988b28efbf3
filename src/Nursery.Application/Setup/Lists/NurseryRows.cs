using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Houses;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.Setup.Lists;

/// <summary>Everything rows of a list may refer to, by code: what is stored, and what a file brings beside it.</summary>
internal sealed class NurseryRows(Site site, TimeProvider time)
{
    public Site Site => site;

    /// <summary>The one site there is here.</summary>
    public Dictionary<string, Site> Sites { get; } = new() { [site.Code] = site };

    public TimeProvider Time => time;

    public Instant Now => Instant.FromDateTimeOffset(time.GetUtcNow());

    public Dictionary<string, House> Houses { get; init; } = [];

    public Dictionary<string, Bench> Benches { get; init; } = [];

    public Dictionary<string, HeatZone> Zones { get; init; } = [];

    public Dictionary<string, Crop> Crops { get; init; } = [];

    public Dictionary<string, Variety> Varieties { get; init; } = [];

    public Dictionary<string, SeedLot> Lots { get; init; } = [];

    public Dictionary<string, TrayType> TrayTypes { get; init; } = [];

    public Dictionary<string, SitePerson> People { get; init; } = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Seeds ever received, by lot code.</summary>
    public Dictionary<string, int> Received { get; init; } = [];

    /// <summary>Crops to take when a variety's crop is not in the list yet, by code.</summary>
    public IReadOnlyDictionary<string, Crop> StartingCrops { get; init; } = new Dictionary<string, Crop>();

    /// <summary>Starting crops this file needs.</summary>
    public List<Crop> TakenCrops { get; } = [];

    public static async Task<NurseryRows> LoadAsync(
        NurseryDbContext database,
        Site site,
        IReadOnlyDictionary<string, Crop> startingCrops,
        TimeProvider time,
        CancellationToken cancellation)
    {
        var lots = await database.SeedLots.ToDictionaryAsync(lot => lot.Code, cancellation);
        return new NurseryRows(site, time)
        {
            Houses = await database.Houses.Where(row => row.SiteId == site.Id).ToDictionaryAsync(row => row.Code, cancellation),
            Benches = await database.Benches.Where(row => row.SiteId == site.Id).ToDictionaryAsync(row => row.Code, cancellation),
            Zones = await database.HeatZones.Where(row => row.SiteId == site.Id).ToDictionaryAsync(row => row.Code, cancellation),
            Crops = await database.Crops.ToDictionaryAsync(row => row.Code, cancellation),
            Varieties = await database.Varieties.ToDictionaryAsync(row => row.Code, cancellation),
            Lots = lots,
            TrayTypes = await database.TrayTypes.ToDictionaryAsync(row => row.Code, cancellation),
            People = await SitePerson.LoadAsync(database, site.Id, cancellation),
            Received = await SeedLots.SeedsReceived.OfAsync(database, lots.Values, cancellation),
            StartingCrops = startingCrops,
        };
    }
}
