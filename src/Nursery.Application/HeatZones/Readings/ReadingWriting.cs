using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.HeatZones.Alarms;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatZones.Readings;

/// <summary>Stores readings, however they came: all or nothing, the same reading twice adds nothing, and one moment of a zone has one.</summary>
internal static class ReadingWriting
{
    public static readonly Instant First = Instant.FromUtc(2000, 1, 1, 0, 0);

    /// <summary>How far a logger's clock may be ahead.</summary>
    private static readonly Duration Ahead = Duration.FromMinutes(15);

    /// <summary>Takes new readings in, unless something is wrong with any of them, which it adds to the errors.</summary>
    /// <returns>How many are new.</returns>
    public static async Task<int> StoreAsync(
        NurseryDbContext database, Site site, IReadOnlyList<ZoneReadingRow> rows, List<FieldError> errors, bool dryRun, TimeProvider time,
        CancellationToken cancellation)
    {
        var now = Instant.FromDateTimeOffset(time.GetUtcNow());

        // In id order; whoever sends the same readings meanwhile waits here and then finds them.
        var zones = (await database.HeatZones
            .FromSql($"SELECT * FROM heat_zones WHERE site_id = {site.Id.Value} ORDER BY id FOR UPDATE")
            .AsNoTracking().ToListAsync(cancellation)).ToDictionary(zone => zone.Code, StringComparer.Ordinal);
        var sound = rows.Where(row => IsSound(row, zones, now, errors)).ToList();
        var known = await KnownAsync(database, sound, zones, cancellation);
        var fresh = new Dictionary<(Id<HeatZone>, Instant), ZoneReadingRow>();
        foreach (var row in sound)
        {
            var key = (zones[row.Zone].Id, row.At);
            var before = known.TryGetValue(key, out var stored) ? stored : fresh.TryGetValue(key, out var twin) ? twin.TemperatureC : row.TemperatureC;
            if (before != row.TemperatureC)
            {
                errors.Add(new FieldError(
                    $"{row.Field}temperatureC", Text(row.TemperatureC), $"{Text(before)}, as zone {row.Zone} read at that moment already", row.Line));
            }
            else if (!known.ContainsKey(key))
            {
                fresh.TryAdd(key, row);
            }
        }

        if (errors.Count > 0)
        {
            return 0;
        }

        if (!dryRun && fresh.Count > 0)
        {
            await InsertAsync(database, site, fresh, cancellation);
            await ZoneAlarms.SyncAsync(database, site.Id, now, time, cancellation);
        }

        return fresh.Count;
    }

    private static bool IsSound(ZoneReadingRow row, Dictionary<string, HeatZone> zones, Instant now, List<FieldError> errors)
    {
        var before = errors.Count;
        if (!zones.ContainsKey(row.Zone))
        {
            errors.Add(new FieldError($"{row.Field}zone", row.Zone, "the code of a heat zone", row.Line));
        }

        if (row.At < First || row.At > now + Ahead)
        {
            errors.Add(new FieldError(
                $"{row.Field}at", InstantPattern.ExtendedIso.Format(row.At), "a moment from 2000 to now: nothing is read before it happens", row.Line));
        }

        if (row.TemperatureC is < ZoneReading.LeastC or > ZoneReading.MostC)
        {
            errors.Add(new FieldError(
                $"{row.Field}temperatureC", Text(row.TemperatureC), $"{ZoneReading.LeastC}–{ZoneReading.MostC} °C", row.Line));
        }

        return errors.Count == before;
    }

    private static async Task<Dictionary<(Id<HeatZone>, Instant), decimal>> KnownAsync(
        NurseryDbContext database, List<ZoneReadingRow> rows, Dictionary<string, HeatZone> zones, CancellationToken cancellation)
    {
        if (rows.Count == 0)
        {
            return [];
        }

        var ids = rows.Select(row => zones[row.Zone].Id).Distinct().ToList();
        var (first, last) = (rows.Min(row => row.At), rows.Max(row => row.At));
        return await database.ZoneReadings.AsNoTracking()
            .Where(row => ids.Contains(row.ZoneId) && row.At >= first && row.At <= last)
            .ToDictionaryAsync(row => (row.ZoneId, row.At), row => row.TemperatureC, cancellation);
    }

    private static async Task InsertAsync(
        NurseryDbContext database, Site site, Dictionary<(Id<HeatZone> Zone, Instant At), ZoneReadingRow> fresh, CancellationToken cancellation)
    {
        var zones = fresh.Keys.Select(key => key.Zone.Value).ToArray();
        var moments = fresh.Keys.Select(key => key.At).ToArray();
        var degrees = fresh.Values.Select(row => row.TemperatureC).ToArray();
        await database.Database.ExecuteSqlAsync($"""
            INSERT INTO zone_readings (zone_id, at, site_id, temperature_c)
            SELECT zone_id, at, {site.Id.Value}, temperature_c FROM unnest({zones}, {moments}, {degrees}) AS sent (zone_id, at, temperature_c)
            """, cancellation);

        // The last reading stands in the zone too. Its version does not count up: a probe must not take the zone's form from under anyone's hands.
        await database.Database.ExecuteSqlAsync($"""
            UPDATE heat_zones SET reads_c = newest.temperature_c, read_at = newest.at
            FROM (SELECT DISTINCT ON (zone_id) zone_id, at, temperature_c FROM unnest({zones}, {moments}, {degrees}) AS sent (zone_id, at, temperature_c)
                  ORDER BY zone_id, at DESC) AS newest
            WHERE heat_zones.id = newest.zone_id AND (heat_zones.read_at IS NULL OR heat_zones.read_at <= newest.at)
            """, cancellation);
    }

    private static string Text(decimal celsius) => celsius.ToString("0.##", CultureInfo.InvariantCulture);
}
