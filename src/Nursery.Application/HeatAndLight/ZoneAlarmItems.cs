using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatAndLight;

/// <summary>An alarm of a zone; temperatures in °C, null where no reading came. It lasts while <paramref name="Until"/> is null.</summary>
public sealed record ZoneAlarmItem(
    string ZoneCode, string BenchCode, ZoneAlarmKind Kind, Instant Since, Instant? Until, decimal? WorstC, string? CropName, decimal? MinC, decimal? MaxC);

internal static class ZoneAlarmItems
{
    /// <summary>How long one that is over is still told of.</summary>
    private static readonly Duration Remembered = Duration.FromDays(3);

    public static async Task<IReadOnlyList<ZoneAlarmItem>> LoadAsync(
        NurseryDbContext database, Id<Site> site, Instant now, CancellationToken cancellation)
    {
        var since = now - Remembered;
        return await (
            from alarm in database.ZoneAlarms
            join zone in database.HeatZones on alarm.ZoneId equals zone.Id
            join bench in database.Benches on zone.BenchId equals bench.Id
            where alarm.SiteId == site && (alarm.Until == null || alarm.Until >= since)
            orderby alarm.Until != null, alarm.Since, zone.Code
            select new ZoneAlarmItem(
                zone.Code, bench.Code, alarm.Kind, alarm.Since, alarm.Until, alarm.WorstC, alarm.CropName, alarm.MinC, alarm.MaxC))
            .ToListAsync(cancellation);
    }
}
