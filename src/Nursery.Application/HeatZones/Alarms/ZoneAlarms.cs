using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Start;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatZones.Alarms;

/// <summary>Opens and ends the alarms of a site's zones, so that a cold night is told of in the morning though the zone is warm again.
/// Run twice, late or side by side it leaves the same alarms open.</summary>
internal static class ZoneAlarms
{
    public static async Task<int> SyncAsync(
        NurseryDbContext database, Id<Site> site, Instant now, TimeProvider time, CancellationToken cancellation)
    {
        var wrong = (await ZonesOutOfBand.LoadAsync(database, site, now, cancellation)).Select(zone => new Wrong(
                zone.ZoneId, zone.ReadsC < zone.MinC ? ZoneAlarmKind.TooCold : ZoneAlarmKind.TooHot, zone))
            .Concat((await ZonesUnread.LoadAsync(database, site, now, cancellation))
                .Select(zone => new Wrong(zone.ZoneId, ZoneAlarmKind.NoReading, null)))
            .ToDictionary(zone => (zone.Zone, zone.Kind));
        var open = await database.ZoneAlarms.Where(alarm => alarm.SiteId == site && alarm.Until == null).ToListAsync(cancellation);
        foreach (var alarm in open)
        {
            if (wrong.Remove((alarm.ZoneId, alarm.Kind), out var still))
            {
                Worsen(alarm, still.Found);
            }
            else
            {
                alarm.Until = now;
            }
        }

        database.ZoneAlarms.AddRange(wrong.Values.Select(zone =>
        {
            var alarm = new ZoneAlarm { Id = NewId.Of<ZoneAlarm>(time), SiteId = site, ZoneId = zone.Zone, Kind = zone.Kind, Since = now };
            Worsen(alarm, zone.Found);
            return alarm;
        }));
        await database.SaveChangesAsync(cancellation);
        return open.Count(alarm => alarm.Until is null) + wrong.Count;
    }

    private static void Worsen(ZoneAlarm alarm, ZoneOutOfBand? found)
    {
        if (found is null || alarm.WorstC is { } worst && (alarm.Kind == ZoneAlarmKind.TooCold ? found.ReadsC >= worst : found.ReadsC <= worst))
        {
            return;
        }

        (alarm.WorstC, alarm.CropName, alarm.MinC, alarm.MaxC) = (found.ReadsC, found.CropName, found.MinC, found.MaxC);
    }

    private sealed record Wrong(Id<HeatZone> Zone, ZoneAlarmKind Kind, ZoneOutOfBand? Found);
}
