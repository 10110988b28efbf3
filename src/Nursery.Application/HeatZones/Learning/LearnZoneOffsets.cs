using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Agronomy.Heat;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatZones.Learning;

/// <summary>Learns each night, for every site, what its zones are off by from the batches counted on them. From the same ledger it learns
/// the same again.</summary>
public sealed class LearnZoneOffsets(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <returns>How many zones some batch spoke of.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellation = default)
    {
        await using var look = await databases.CreateDbContextAsync(cancellation);
        var zones = 0;
        foreach (var site in await look.Sites.AsNoTracking().OrderBy(site => site.Id).ToListAsync(cancellation))
        {
            var learnt = ZoneOffsets.Learn(await CountedOnZones.LoadAsync(look, site, site.Today(time), cancellation));
            zones += await databases.RunAsync(database => StoreAsync(database, site, learnt, cancellation), cancellation);
        }

        return zones;
    }

    private static async Task<int> StoreAsync(
        NurseryDbContext database, Site site, IReadOnlyList<ZoneOffset> learnt, CancellationToken cancellation)
    {
        var byCode = learnt.ToDictionary(zone => zone.Zone);
        var codes = await database.HeatZones.Where(zone => zone.SiteId == site.Id).OrderBy(zone => zone.Id)
            .Select(zone => zone.Code).ToListAsync(cancellation);
        foreach (var code in codes)
        {
            var zone = byCode.GetValueOrDefault(code);
            var (offset, low, high) = (Rounded(zone?.Celsius.Median), Rounded(zone?.Celsius.Low), Rounded(zone?.Celsius.High));

            // Not by way of the row's version: nobody who edits the zone is to be told that somebody else did.
            await database.HeatZones.Where(row => row.SiteId == site.Id && row.Code == code)
                .ExecuteUpdateAsync(
                    row => row.SetProperty(to => to.OffsetC, offset).SetProperty(to => to.OffsetLowC, low)
                        .SetProperty(to => to.OffsetHighC, high).SetProperty(to => to.OffsetBatches, zone == null ? 0 : zone.Batches),
                    cancellation);
        }

        return learnt.Count;
    }

    private static decimal? Rounded(double? celsius) => celsius is { } some ? decimal.Round((decimal)some, 2) : null;
}
