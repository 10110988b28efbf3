using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Agronomy;
using Nursery.Agronomy.Emergence;
using Nursery.Agronomy.Forecast;
using Nursery.Agronomy.Heat;
using Nursery.Application.Computed;
using Nursery.Application.Crops;
using Nursery.Application.Germination;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Batches;
using Nursery.Domain.Benches;
using Nursery.Domain.Crops;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Ledger;
using Nursery.Domain.SeedLots;
using Nursery.Domain.Sites;
using Nursery.Domain.TraySets;

namespace Nursery.Application.HeatZones.Learning;

/// <summary>How quick the batches of the last thirteen months were on the zones they lay on, by what was counted there.</summary>
internal static class CountedOnZones
{
    private const int RecordDays = 400;

    /// <summary>The latest of each zone; more only cost time.</summary>
    private const int MostOfAZone = 60;

    public static async Task<IReadOnlyList<ZoneBatch>> LoadAsync(
        NurseryDbContext database, Site site, LocalDate today, CancellationToken cancellation)
    {
        var counted = await CountedBatches.LoadAsync(database, site.Id, today.PlusDays(-RecordDays), today.PlusDays(1), cancellation);
        var ids = counted.ConvertAll(batch => new Id<Batch>(batch.Id));
        var rows = await (
            from batch in database.Batches
            join variety in database.Varieties on batch.VarietyId equals variety.Id
            join crop in database.Crops on variety.CropId equals crop.Id
            from lot in database.SeedLots.Where(row => row.Id == (batch.State.LotId ?? batch.LotId)).DefaultIfEmpty()
            where ids.Contains(batch.Id)
            select new Sown(batch, variety, crop, lot)).AsNoTracking().ToDictionaryAsync(row => row.Batch.Id, cancellation);
        var places = (await (
            from reservation in database.Reservations
            join bench in database.Benches on reservation.BenchId equals bench.Id
            join share in database.TrayShares on reservation.TraySetId equals share.TraySetId
            where ids.Contains(share.BatchId) && bench.Kind == BenchKind.Germination
            select new { share.BatchId, reservation.BenchId, reservation.Spaces, reservation.Days }).AsNoTracking().ToListAsync(cancellation))
            .ToLookup(row => row.BatchId);
        var programs = await ProgramsAsync(database, site, cancellation);
        var chances = await SeedChances.LoadAsync(database, site, today, cancellation);
        var spoke = new List<ZoneBatch>();
        foreach (var batch in counted.OrderByDescending(batch => batch.SownOn).ThenBy(batch => batch.Code, StringComparer.Ordinal))
        {
            var on = places[new Id<Batch>(batch.Id)].Where(place => place.Days.Contains(batch.SownOn)).ToList();
            var zones = programs.Where(zone => on.Exists(place => place.BenchId == zone.Program.Zone.BenchId && place.Spaces.Overlaps(zone.Program.Zone.Spaces))).ToList();
            if (zones is [var zone] && batch.SownOn >= zone.KnownFrom && spoke.Count(other => other.Zone == zone.Program.Zone.Code) < MostOfAZone
                && Spoke(rows[new Id<Batch>(batch.Id)], batch, zone.Program, chances) is { } known)
            {
                spoke.Add(known);
            }
        }

        return spoke;
    }

    /// <summary>What zones were set to, and since when it is known: another setpoint for good leaves no trace of the one before but in the ledger.</summary>
    private static async Task<List<(ZoneProgram Program, LocalDate KnownFrom)>> ProgramsAsync(
        NurseryDbContext database, Site site, CancellationToken cancellation)
    {
        var zones = await database.HeatZones.AsNoTracking().Where(zone => zone.SiteId == site.Id).ToListAsync(cancellation);
        var spans = await database.ZoneSetpoints.AsNoTracking().Where(span => span.SiteId == site.Id).ToListAsync(cancellation);
        var changes = (await database.Ledger.AsNoTracking().Where(entry => entry.SiteId == site.Id && entry.Kind == LedgerKind.SetpointChanged)
            .Select(entry => entry.Value).ToListAsync(cancellation)).OfType<SetpointChanged>().Where(change => change.To is null).ToLookup(change => change.Zone);
        return zones.ConvertAll(zone => (
            new ZoneProgram(zone, spans),
            changes[zone.Id].Select(change => LocalDatePattern.Iso.Parse(change.From).Value).DefaultIfEmpty(LocalDate.MinIsoValue).Max()));
    }

    private static ZoneBatch? Spoke(Sown sown, GerminatedBatch counted, ZoneProgram program, SeedChances chances)
    {
        var (batch, from) = (sown.Batch, counted.SownOn);
        var off = batch.State.OffHeatOn ?? LocalDate.MaxIsoValue;
        var counts = counted.Counts.Where(count => count.Day > from && count.Day <= off && count.Seeds >= batch.SeedsPerCell).Select(count =>
        {
            var cells = Math.Min(batch.Cells, count.Seeds!.Value / batch.SeedsPerCell);
            return new Agronomy.Forecast.EmergenceCount(
                Period.DaysBetween(from, count.Day), CountKind.Seedlings, Math.Min((int)Math.Round(count.Up), cells * batch.SeedsPerCell), cells);
        }).ToList();
        if (counts.Count == 0)
        {
            return null;
        }

        var last = counts.Max(count => count.Day);
        var setpoints = program.Stretches(from, from.PlusDays((int)last + 1))
            .Select(stretch => ((double)Period.DaysBetween(from, stretch.From), new Temperature(stretch.SetpointC))).ToList();
        var media = setpoints.ConvertAll(step => (step.Item1, MediaOffset.Of(step.Item2)));
        var found = FindCropEmergence.Of(sown.Crop);
        if (chances.Of(new SeedQuestion(sown.Crop, sown.Lot, counted.HouseCode, media[0].Item2, from) { Except = counted.Id }) is not { } chance)
        {
            return null;
        }

        try
        {
            var question = new ForecastQuestion(
                found.Rate, found.Curve, batch.Cells, batch.SeedsPerCell, chance.Prior, new TemperatureRecord(media), counts, last, 0);
            return ApparentSpeed.Of(question) is { } speed
                ? new ZoneBatch(program.Zone.Code, sown.Crop.Name, sown.Variety.Code, found.Rate, setpoints, last, speed.LogSlower, speed.Error)
                : null;
        }
        catch (InputOutOfRange)
        {
            // Counted a year after sowing, or otherwise nothing a forecast can be asked of: it says nothing of a zone.
            return null;
        }
    }

    private sealed record Sown(Batch Batch, Variety Variety, Crop Crop, SeedLot? Lot);
}
