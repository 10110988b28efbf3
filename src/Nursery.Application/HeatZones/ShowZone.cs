using Microsoft.EntityFrameworkCore;
using NodaTime;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain.HeatZones;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;

namespace Nursery.Application.HeatZones;

/// <summary>Trays in a zone with the setpoints they accept, °C.</summary>
public sealed record ZoneTraysItem(
    string TraySetCode, string BatchCode, string CropName, int Spaces, LocalDate From, LocalDate To, decimal MinC, decimal OptimumC, decimal MaxC);

/// <summary>A stretch of days with one setpoint, °C, to the first day it no longer holds.</summary>
public sealed record SetpointStretch(LocalDate From, LocalDate To, decimal SetpointC);

/// <summary>A zone, what it is set to over the coming weeks, who lies on it, and the band all of them accept
/// (null when nobody lies there, or no setpoint suits all).</summary>
public sealed record ZonePage(
    string Code,
    string BenchCode,
    int FirstSpace,
    int Spaces,
    decimal SetpointC,
    decimal? ReadsC,
    IReadOnlyList<SetpointStretch> Program,
    IReadOnlyList<ZoneTraysItem> Trays,
    decimal? BandMinC,
    decimal? BandMaxC);

public sealed class ShowZone(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <param name="zoneCode">The zone.</param>
    /// <param name="from">First day looked at; null is today.</param>
    /// <param name="days">How many days, 1–400.</param>
    /// <param name="actor">Who asks.</param>
    /// <param name="cancellation">Stops.</param>
    public async Task<ZonePage> HandleAsync(
        string zoneCode, LocalDate? from, int days, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Read);
        new FieldChecks().Range("days", days, 1, 400).Done();
        await using var database = await databases.CreateDbContextAsync(cancellation);
        var site = await database.SiteOfAsync(actor, cancellation);
        var first = from ?? site.Today(time);
        var end = first.PlusDays(days);
        var zone = await database.HeatZones.AsNoTracking()
            .SingleOrDefaultAsync(row => row.Code == zoneCode && row.SiteId == actor.SiteId, cancellation)
            ?? throw new NotFound("heat zone", "zoneCode", zoneCode);
        var bench = await database.Benches.Where(row => row.Id == zone.BenchId).Select(row => row.Code).SingleAsync(cancellation);
        var spans = await database.ZoneSetpoints.AsNoTracking().Where(row => row.ZoneId == zone.Id).ToListAsync(cancellation);
        var program = new ZoneProgram(zone, spans);
        var trays = (await ZoneLoad.OfAsync(database, zone, first, end, cancellation)).Select(row => new ZoneTraysItem(
            row.TraySetCode, row.BatchCode, row.Crop.Name, row.Spaces, row.From, row.To,
            row.Crop.GerminationMinC, row.Crop.GerminationOptimumC, row.Crop.GerminationMaxC)).ToList();
        var low = trays.Count == 0 ? (decimal?)null : trays.Max(row => row.MinC);
        var high = trays.Count == 0 ? (decimal?)null : trays.Min(row => row.MaxC);
        var none = low > high;
        return new ZonePage(
            zone.Code,
            bench,
            zone.Spaces.First,
            zone.Spaces.Count,
            program.On(first),
            zone.ReadsC,
            [.. program.Stretches(first, end).Select(stretch => new SetpointStretch(stretch.From, stretch.To, stretch.SetpointC))],
            trays,
            none ? null : low,
            none ? null : high);
    }
}
