using Microsoft.EntityFrameworkCore;
using NodaTime;
using NodaTime.Text;
using Nursery.Application.Reservations;
using Nursery.Application.Transactions;
using Nursery.Data;
using Nursery.Domain;
using Nursery.Domain.Benches;
using Nursery.Domain.HeatZones;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Sites;

namespace Nursery.Application.Outages;

/// <summary>A bench or a heat zone that cannot be used, from a day (today or later) to the first day it can again, at most two years on.</summary>
/// <param name="BenchCode">Null when a zone is named.</param>
/// <param name="ZoneCode">Null when the whole bench is meant.</param>
/// <param name="Why">Up to 200 characters; null when nobody says.</param>
public sealed record TakeOutOfUseRequest(string? BenchCode, string? ZoneCode, LocalDate From, LocalDate To, string? Why = null);

/// <summary>Takes a bench or a heat zone out of use for some days. From then on nobody reserves it on those days; trays that hold spaces
/// there keep them, are named, and are carried elsewhere by hand or by planning anew.</summary>
public sealed class TakeOutOfUse(IDbContextFactory<NurseryDbContext> databases, TimeProvider time)
{
    public const int MostDays = 728;
    public const int LongestWhy = 200;

    /// <exception cref="NotInUse">It is out of use on some of those days already.</exception>
    public Task<OutageItem> HandleAsync(TakeOutOfUseRequest request, Actor actor, CancellationToken cancellation = default)
    {
        actor.Must(Right.Plan);
        return databases.RunAsync(database => TakeAsync(database, request, actor, cancellation), cancellation);
    }

    private async Task<OutageItem> TakeAsync(
        NurseryDbContext database, TakeOutOfUseRequest request, Actor actor, CancellationToken cancellation)
    {
        var site = await database.SiteOfAsync(actor, cancellation);
        var (bench, zone) = await FindAsync(database, request, actor, cancellation);
        Check(request, bench, zone, site.Today(time));
        var outage = await WriteAsync(database, site, bench!, zone, request, actor, cancellation);
        return (await OutageItems.LoadAsync(database, site.Id, site.Today(time), cancellation, outage.Id)).Single();
    }

    /// <summary>Within a transaction of the caller; the bench is locked here.</summary>
    /// <exception cref="NotInUse">It is out of use on some of those days already.</exception>
    internal async Task<Outage> WriteAsync(
        NurseryDbContext database, Site site, Bench bench, HeatZone? zone, TakeOutOfUseRequest request, Actor actor,
        CancellationToken cancellation)
    {
        await database.LockBenchesAsync([bench.Id], cancellation);
        var zoneId = zone?.Id;
        var last = request.To.PlusDays(-1);
        if (await database.Outages.AsNoTracking().FirstOrDefaultAsync(
            row => row.ZoneId == zoneId && (zoneId != null || row.BenchId == bench.Id) && row.Days.Start <= last && row.Days.End >= request.From, cancellation) is { } known)
        {
            throw new NotInUse(bench.Code, zone?.Code, known.Days.Start, known.To, known.Why);
        }

        var why = string.IsNullOrWhiteSpace(request.Why) ? null : request.Why.Trim();
        var outage = new Outage
        {
            Id = NewId.Of<Outage>(time),
            SiteId = site.Id,
            BenchId = bench.Id,
            ZoneId = zoneId,
            Days = new DateInterval(request.From, last),
            Why = why,
            WhoName = actor.Name,
        };
        database.Outages.Add(outage);
        database.Write(site, actor, time, new TakenOutOfUse(bench.Id, zoneId, Iso(request.From), Iso(request.To), why), bench: bench.Id);
        await database.SaveChangesAsync(cancellation);
        return outage;
    }

    private static async Task<(Bench? Bench, HeatZone? Zone)> FindAsync(
        NurseryDbContext database, TakeOutOfUseRequest request, Actor actor, CancellationToken cancellation)
    {
        var zone = request.ZoneCode is null
            ? null
            : await database.HeatZones.SingleOrDefaultAsync(row => row.Code == request.ZoneCode && row.SiteId == actor.SiteId, cancellation);
        var benches = database.Benches.Where(row => row.SiteId == actor.SiteId && row.RetiredOn == null);
        var bench = zone is null
            ? await benches.SingleOrDefaultAsync(row => row.Code == request.BenchCode, cancellation)
            : await benches.SingleOrDefaultAsync(row => row.Id == zone.BenchId, cancellation);
        return (bench, zone);
    }

    private static void Check(TakeOutOfUseRequest request, Bench? bench, HeatZone? zone, LocalDate today)
    {
        var checks = new FieldChecks();
        if (request.ZoneCode is not null && (zone is null || bench is null))
        {
            checks.Fail("zoneCode", request.ZoneCode, "the code of a heat zone of this site on a bench in use");
        }
        else if (request.ZoneCode is null && bench is null)
        {
            checks.Fail("benchCode", request.BenchCode, "the code of a bench of this site in use, or a zoneCode instead");
        }
        else if (request.BenchCode is not null && request.BenchCode != bench!.Code)
        {
            checks.Fail("benchCode", request.BenchCode, $"{bench.Code}, on which zone {request.ZoneCode} lies, or none");
        }

        var last = today.PlusDays(MostDays);
        if (request.From < today || request.From >= last)
        {
            checks.Fail("from", Iso(request.From), $"{Iso(today)} (today) to {Iso(last.PlusDays(-1))}: past days never change");
        }

        if (request.To <= request.From || request.To > last)
        {
            checks.Fail("to", Iso(request.To), $"later than from, up to {Iso(last)}");
        }

        if (!string.IsNullOrWhiteSpace(request.Why))
        {
            checks.Text("why", request.Why, LongestWhy);
        }

        checks.Done();
    }

    private static string Iso(LocalDate day) => LocalDatePattern.Iso.Format(day);
}
