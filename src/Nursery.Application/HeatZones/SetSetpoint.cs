using System.Globalization;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Application.HeatZones;

/// <summary>A setpoint, 0–60 °C, from a day (today or later) to the first day it no longer holds; without an end it is the zone's own.</summary>
public sealed record SetSetpointRequest(string ZoneCode, decimal SetpointC, LocalDate From, LocalDate? To);

/// <summary>Sets a zone, for good or for a span of days, unless seed that lies there then does not accept it.</summary>
public sealed class SetSetpoint(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    /// <exception cref="WouldHarm">Trays on those days need another temperature; they are named.</exception>
    public Task HandleAsync(SetSetpointRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => SetAsync(database, request, actor, cancellation), cancellation);
    }

    /// <summary>Within a transaction of the caller, who has locked the benches it changes.</summary>
    internal async Task<Id<LedgerEntry>> SetAsync(
        NurseryDbContext database, SetSetpointRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var zone = await database.HeatZones
            .SingleOrDefaultAsync(row => row.Code == request.ZoneCode && row.SiteId == actor.SiteId, cancellation)
            ?? throw new NotFound("heat zone", "zoneCode", request.ZoneCode);
        Check(request, site.Today(time));

        // The bench's row guards the zone too: nobody reserves here while its temperature changes.
        await database.LockBenchesAsync([zone.BenchId], cancellation);
        await RefuseHarmAsync(database, zone, request, cancellation);
        await MakeRoomAsync(database, zone, request, cancellation);
        if (request.To is { } to)
        {
            database.ZoneSetpoints.Add(Span(site, zone, request.From, to.PlusDays(-1), request.SetpointC));
        }
        else
        {
            await KeepUntilAsync(database, site, zone, request.From, cancellation);
            zone.SetpointC = request.SetpointC;
            zone.Version++;
        }

        var entry = database.Write(
            site, actor, time,
            new SetpointChanged(
                zone.Id, request.SetpointC, LocalDatePattern.Iso.Format(request.From),
                request.To is { } end ? LocalDatePattern.Iso.Format(end) : null),
            bench: zone.BenchId);
        await database.SaveChangesAsync(cancellation);
        return entry.Id;
    }

    private static void Check(SetSetpointRequest request, LocalDate today)
    {
        var checks = new FieldChecks();
        if (request.SetpointC is < 0 or > 60)
        {
            checks.Fail("setpointC", request.SetpointC.ToString(CultureInfo.InvariantCulture), "0–60 °C");
        }

        if (request.From < today)
        {
            checks.Fail("from", LocalDatePattern.Iso.Format(request.From), "today or later: past days never change");
        }

        if (request.To <= request.From)
        {
            checks.Fail("to", LocalDatePattern.Iso.Format(request.To!.Value), "later than from");
        }

        checks.Done();
    }

    private static async Task RefuseHarmAsync(
        NurseryDbContext database, HeatZone zone, SetSetpointRequest request, CancellationToken cancellation)
    {
        var lying = await ZoneLoad.OfAsync(database, zone, request.From, request.To, cancellation);
        var harmed = lying.Where(trays => !trays.Crop.Accepts(request.SetpointC))
            .Select(trays => new HarmedTrays(
                trays.TraySetCode, trays.Crop.Name, trays.Crop.GerminationMinC, trays.Crop.GerminationMaxC))
            .Distinct().ToList();
        if (harmed.Count > 0)
        {
            throw new WouldHarm(zone.Code, request.SetpointC, harmed);
        }
    }

    /// <summary>Cuts earlier spans where the new one lies.</summary>
    private async Task MakeRoomAsync(
        NurseryDbContext database, HeatZone zone, SetSetpointRequest request, CancellationToken cancellation)
    {
        var last = request.To?.PlusDays(-1) ?? LocalDate.MaxIsoValue;
        var spans = (await database.ZoneSetpoints.Where(span => span.ZoneId == zone.Id).ToListAsync(cancellation))
            .Where(span => span.Days.Start <= last && span.Days.End >= request.From).ToList();
        foreach (var span in spans)
        {
            database.ZoneSetpoints.Remove(span);
            if (span.Days.Start < request.From)
            {
                database.ZoneSetpoints.Add(Copy(span, span.Days.Start, request.From.PlusDays(-1)));
            }

            if (span.Days.End > last)
            {
                database.ZoneSetpoints.Add(Copy(span, last.PlusDays(1), span.Days.End));
            }
        }
    }

    /// <summary>A new setpoint for good that starts later: until then the old one is a span.</summary>
    private async Task KeepUntilAsync(
        NurseryDbContext database, Site site, HeatZone zone, LocalDate from, CancellationToken cancellation)
    {
        var today = site.Today(time);
        if (from <= today)
        {
            return;
        }

        var spans = await database.ZoneSetpoints.AsNoTracking().Where(span => span.ZoneId == zone.Id).ToListAsync(cancellation);
        var ownDays = new ZoneProgram(zone, spans).Stretches(today, from)
            .Where(stretch => !spans.Any(span => span.Days.Contains(stretch.From)));
        database.ZoneSetpoints.AddRange(ownDays.Select(
            stretch => Span(site, zone, stretch.From, stretch.To.PlusDays(-1), zone.SetpointC)));
    }

    private ZoneSetpoint Copy(ZoneSetpoint span, LocalDate from, LocalDate last) => new()
    {
        Id = NewId.Of<ZoneSetpoint>(time),
        SiteId = span.SiteId,
        ZoneId = span.ZoneId,
        Days = new DateInterval(from, last),
        SetpointC = span.SetpointC,
    };

    private ZoneSetpoint Span(Site site, HeatZone zone, LocalDate from, LocalDate last, decimal setpointC) => new()
    {
        Id = NewId.Of<ZoneSetpoint>(time),
        SiteId = site.Id,
        ZoneId = zone.Id,
        Days = new DateInterval(from, last),
        SetpointC = setpointC,
    };
}
