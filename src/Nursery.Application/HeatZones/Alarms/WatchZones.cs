using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;

namespace Nursery.Application.HeatZones.Alarms;

/// <summary>Looks every few minutes whether a zone of any site reads what seed on it does not bear, or is read no more. Trays that were
/// carried there and probes that fell silent raise an alarm without a new reading.</summary>
public sealed class WatchZones(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <returns>How many alarms are open.</returns>
    public async Task<int> HandleAsync(CancellationToken cancellation = default)
    {
        await using var look = await databases.CreateDbContextAsync(cancellation);
        var open = 0;
        foreach (var site in await look.Sites.OrderBy(site => site.Id).Select(site => site.Id).ToListAsync(cancellation))
        {
            open += await databases.RunAsync(
                database => ZoneAlarms.SyncAsync(database, site, Instant.FromDateTimeOffset(time.GetUtcNow()), time, cancellation), cancellation);
        }

        return open;
    }
}
