using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Data;
using Nursery.Domain.Crops;
using Nursery.Domain.HeatZones;

namespace Nursery.Application.HeatZones;

/// <summary>Trays that hold spaces of a zone: from a day to the first day no longer held.</summary>
internal sealed record ZoneTrays(string TraySetCode, string BatchCode, Crop Crop, int Spaces, LocalDate From, LocalDate To);

internal static class ZoneLoad
{
    /// <summary>Who lies on a zone from a day to the first day no longer asked for (null is for good).</summary>
    public static async Task<IReadOnlyList<ZoneTrays>> OfAsync(
        NurseryDbContext database, HeatZone zone, LocalDate from, LocalDate? to, CancellationToken cancellation)
    {
        var last = to?.PlusDays(-1);
        var rows = await (
            from reservation in database.Reservations
            join traySet in database.TraySets on reservation.TraySetId equals traySet.Id
            join share in database.TrayShares on traySet.Id equals share.TraySetId
            join batch in database.Batches on share.BatchId equals batch.Id
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            where reservation.BenchId == zone.BenchId
                && reservation.Days.End >= @from && (last == null || reservation.Days.Start <= last)
            select new { reservation, TraySet = traySet.Code, Batch = batch.Code, crop }).AsNoTracking().ToListAsync(cancellation);
        return
        [
            .. rows.Where(row => row.reservation.Spaces.Overlaps(zone.Spaces))
                .OrderBy(row => row.reservation.Days.Start)
                .Select(row => new ZoneTrays(
                    row.TraySet, row.Batch, row.crop, row.reservation.Spaces.Count, row.reservation.Days.Start, row.reservation.To)),
        ];
    }
}
